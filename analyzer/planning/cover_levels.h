// A choice problem in covering form: for each gain that a customer may reach, the sites that let it
// reach that gain, with what the step up to it is worth.
//
// Equal covers of different customers are one level, so that a district of many like parcels
// becomes small. A level is told by the level above it, whose sites cover it too, and by the sites
// that come on: as many entries as there are offers, where writing each cover out would take the
// square (S. Elloumi, "A tighter formulation of the p-median problem", Journal of Combinatorial
// Optimization 19 (2010), from memory).
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

struct CoverLevels {
    static constexpr std::uint32_t none = UINT32_MAX;
    std::vector<Gain> worth;           // > 0: of all customers whose step it is
    std::vector<std::uint32_t> above;  // a smaller index, or none
    Lists<std::uint32_t> sites;        // that cover it and not the level above; ascending

    std::size_t size() const { return worth.size(); }
};

// Of the sites that are not ruled out. The gain of a set of sites is the worth of all levels that
// one of them covers. O(sum over customers of the square of their offers).
CoverLevels cover_levels(const ChoiceProblem& problem);

}  // namespace farwater::planning
