#include "analyzer/planning/choose_sites.h"

#include <utility>

#include "analyzer/district/sorted_once.h"
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
    Choice choice;
    const auto consider = [&choice](const Sites& sites) {
        choice.considered.insert(choice.considered.end(), sites.begin(), sites.end());
    };
    consider(greedy);
    Sites best = exchanged(problem, greedy);
    consider(best);
    const Bound bound = upper_bound(problem, best);
    for (const Sites& start : bound.taken) {
        Sites other = exchanged(problem, start);
        consider(start);
        consider(other);
        if (gain_of(problem, other) > gain_of(problem, best)) {
            best = std::move(other);
        }
    }
    choice.at_most = bound.at_most;
    if (exact_seconds) {
        ExactChoice exact = exact_choice(problem, best, bound.at_most, *exact_seconds);
        choice.proof = exact.proved ? Proof::best : Proof::out_of_time;
        choice.at_most = exact.at_most;
        best = std::move(exact.sites);
    }
    consider(best);
    choice.considered = sorted_once(std::move(choice.considered));
    choice.greedy_gain = gain_of(problem, greedy);
    choice.sites = in_order_of_gain(problem, best);
    choice.gain = gain_of(problem, choice.sites);
    return choice;
}

}  // namespace farwater::planning
