// How much any choice could gain at most: what the gap is measured against.
//
// Each customer has a price. For all prices that are not negative, the sum of the prices, and of
// what the best sites offer above them, is no less than the gain of any choice (Lagrangian bound of
// the covering form: G. Cornuejols, M. Fisher, G. Nemhauser, "Location of bank accounts to optimize
// float", Management Science 23 (1977), from memory). The prices are bettered by subgradient steps
// (M. Held, P. Wolfe, H. Crowder 1974), so that more steps make it lower, and none makes it untrue.
#pragma once

#include <array>

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

struct Bound {
    Gain at_most = 0;
    // Choices to start from: of those that bounds were made of the one that gains most, and that of
    // the lowest bound.
    std::array<Sites, 2> taken;
};

// `sites` is the best choice known. `at_most` is never less than its gain, nor than that of any
// other choice within number and budget; `taken` keeps to both, the planned ones first. At most 300
// steps of O(all offers), fewer for very many offers.
Bound upper_bound(const ChoiceProblem& problem, const Sites& sites);

}  // namespace farwater::planning
