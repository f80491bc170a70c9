// The best choice there is, by integer programming, in the time that is given for it.
#pragma once

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

struct ExactChoice {
    Sites sites;          // `known` where nothing better was found
    Gain at_most = 0;     // no choice gains more
    bool proved = false;  // that none gains more than `sites`, but for 1e-7 of it
};

// Solves the covering form (cover_levels.h) by COIN-OR Cbc. `known` is a choice within number and
// budget; `known_at_most` a bound that is known. Ends after so many seconds by the clock, in the
// middle of the first linear program too: what comes back is then what was found and proved so
// far, and depends on the machine. Else the same for the same problem.
ExactChoice exact_choice(const ChoiceProblem& problem, const Sites& known, Gain known_at_most,
                         double seconds);

}  // namespace farwater::planning
