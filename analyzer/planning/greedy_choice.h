// Choosing one site after the other.
//
// Sources: G. Nemhauser, L. Wolsey, M. Fisher, "An analysis of approximations for maximizing
// submodular set functions I", Mathematical Programming 14 (1978): for a number of sites at least
// 1 - 1/e of the best gain. M. Minoux (1978) for not asking again what can only have become less.
// J. Leskovec et al., "Cost-effective outbreak detection in networks", KDD 2007: for a budget the
// better of the choices by gain and by gain per cost is at least half of 1 - 1/e. All from memory.
#pragma once

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

enum class GreedyRule : std::uint8_t { most_gain, most_gain_per_cost };

// Takes the open site that adds most, or most for its cost, of those that may still be afforded, as
// long as one adds something; of equals the smaller index. A few times O(all offers).
Sites greedy_sites(const ChoiceProblem& problem, GreedyRule rule);

// The better of both rules where there is a budget, by gain, then by cost.
Sites greedy_choice(const ChoiceProblem& problem);

}  // namespace farwater::planning
