#include "analyzer/planning/choose_sites.h"

#include <utility>

#include "analyzer/planning/choice_bound.h"
#include "analyzer/planning/exact_choice.h"
#include "analyzer/planning/exchange.h"
#include "analyzer/planning/greedy_choice.h"

namespace farwater::planning {

double Choice::gap() const {
    return at_most > gain ? static_cast<double>(at_most - gain) / static_cast<double>(at_most)
                          : 0.0;
}

Choice choose_sites(const ChoiceProblem& problem, std::optional<double> exact_seconds) {
    const Sites greedy = greedy_choice(problem);
    Sites best = exchanged(problem, greedy);
    const Bound bound = upper_bound(problem, best);
    for (const Sites& start : bound.taken) {
        Sites other = exchanged(problem, start);
        if (gain_of(problem, other) > gain_of(problem, best)) {
            best = std::move(other);
        }
    }
    Choice choice;
    choice.at_most = bound.at_most;
    if (exact_seconds) {
        ExactChoice exact = exact_choice(problem, best, bound.at_most, *exact_seconds);
        choice.proof = exact.proved ? Proof::best : Proof::out_of_time;
        choice.at_most = exact.at_most;
        best = std::move(exact.sites);
    }
    choice.greedy_gain = gain_of(problem, greedy);
    choice.sites = in_order_of_gain(problem, best);
    choice.gain = gain_of(problem, choice.sites);
    return choice;
}

}  // namespace farwater::planning
