// Dealing chosen sites into years, each with as much to spend. What a year does not spend is put by
// for the next.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

// The sites in the order in which they are built: the planned ones first, for they are paid
// otherwise, then, of those that the money at hand buys, the one that adds most, the cheaper of
// equals, then the smaller index; where it buys none, years pass until it does. O(sites x offers).
// Precondition: yearly > 0.
Sites order_of_building(const ChoiceProblem& problem, const Sites& sites, Cents yearly);

// The year, from 1, by whose end the costs up to each are there; of costs in order of building.
// Precondition: yearly > 0.
std::vector<Cents> years_of_building(std::span<const Cents> costs, Cents yearly);

}  // namespace farwater::planning
