// Choosing among sites of which only those are worked out that a choice could hang on; of the
// others a bound is known.
//
// Source: what an upper bound does not let a site win, need not be asked (M. Minoux 1978; J.
// Leskovec et al., KDD 2007; from memory). Here bounds are offers to customers, so that they fall
// with what is chosen like true offers do.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "analyzer/planning/choice_problem.h"
#include "analyzer/planning/choose_sites.h"

namespace farwater::planning {

// What a site offers when it is worked out; by customer, each once.
struct WorkedOut {
    std::vector<Offer> offers;
    bool idle = false;  // gains nothing by itself, losses taken off: none to choose
};

// None when stopped.
using WorkOut = std::function<std::optional<WorkedOut>(std::uint32_t site)>;

struct LazyChoice {
    Choice choice;
    ChoiceProblem problem;         // with true offers where they are known
    std::vector<char> worked_out;  // per site
};

// The offers of `bounds` are at least the true ones. Planned sites are worked out, and every site
// that some choice takes: greedy by either rule, bettered by exchange, or what the upper bound is
// made of, until all that are taken are known. Then greedy and the best choice are those that true
// offers of all sites give, no exchange betters it, and `at_most` is no less than the best there
// is. Sites that are ruled out are not asked. With `every_site` all others are. None when stopped.
std::optional<LazyChoice> choose_lazily(ChoiceProblem bounds, const WorkOut& work_out,
                                        std::optional<double> exact_seconds, bool every_site);

}  // namespace farwater::planning
