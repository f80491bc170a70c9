// Places that stand in for another one at the same water, where its owner refuses.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/planning/candidates.h"
#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

// `first` and those behind it are the places of one water, the best first: one that is nearer than
// `within` to a place before it stands in for that; the others draw on the same water and say so.
void tell_stand_ins(std::vector<Candidate>& places, std::size_t first, Length within);

// Of places that stand in for each other the planned ones stay, else the first that is open; the
// other open ones are ruled out. Those that were, ascending.
std::vector<std::uint32_t> let_stand_by(const std::vector<Candidate>& places,
                                        std::vector<Ruling>& rulings);

// The others of its group, in their order. O(places).
std::vector<std::uint32_t> stand_ins_of(const std::vector<Candidate>& places, std::size_t place);

}  // namespace farwater::planning
