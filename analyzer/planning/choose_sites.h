// The choice: one site after the other, then by exchange, and by exchange from what the bound is
// made of; the better of both, with what the best could be at most; and on request the best there
// is.
#pragma once

#include <optional>

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

enum class Proof : std::uint8_t {
    not_asked,
    best,        // no choice gains more
    out_of_time  // none gains more than `at_most`
};

struct Choice {
    Sites sites;           // the planned ones first, then each that adds most to those before
    Gain gain = 0;         // of all of them together
    Gain greedy_gain = 0;  // before exchanges; asked for by tests alone
    Gain at_most = 0;      // no choice within number and budget gains more
    Proof proof = Proof::not_asked;
    Sites considered;    // ascending: of this choice and of all that it was found from
    double gap() const;  // share of `at_most` that may be missing, 0 = none
};

// The same for the same problem. Preconditions: the struct's own. With `exact_seconds` the best
// choice is searched that long (exact_choice.h); only where that ends it does not depend on the
// machine.
Choice choose_sites(const ChoiceProblem& problem,
                    std::optional<double> exact_seconds = std::nullopt);

}  // namespace farwater::planning
