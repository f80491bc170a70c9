// The choice: one site after the other, then by exchange, and by exchange from what the bound is
// made of; the better of both, with what the best could be at most.
#pragma once

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

struct Choice {
    Sites sites;           // the planned ones first, then each that adds most to those before
    Gain gain = 0;         // of all of them together
    Gain greedy_gain = 0;  // before exchanges
    Gain at_most = 0;      // no choice within number and budget gains more
    double gap() const;    // share of `at_most` that may be missing, 0 = none
};

// The same for the same problem. Preconditions: the struct's own.
Choice choose_sites(const ChoiceProblem& problem);

}  // namespace farwater::planning
