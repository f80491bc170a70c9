// Bettering a choice by exchanging one site for another, as long as that gains.
//
// Source: R. Whitaker, "A fast algorithm for the greedy interchange for large-scale clustering and
// median location problems", INFOR 21 (1983); M. Resende and R. Werneck (2004) for the gain of all
// exchanges from what comes in, less what goes out, and what both together add. From memory.
#pragma once

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

// Makes the exchange, or the addition, that gains most, until none gains and may be afforded; of
// equals that of the smaller indices. Planned sites stay. Precondition: the sites keep to number
// and budget; so do those that come back, and their gain is no less. Each step O(all offers +
// candidates x sites). The order of the sites means nothing afterwards.
Sites exchanged(const ChoiceProblem& problem, Sites sites);

// The same sites in the order in which each adds most, the planned ones first; those that add
// nothing are left out, but for planned ones.
Sites in_order_of_gain(const ChoiceProblem& problem, const Sites& sites);

}  // namespace farwater::planning
