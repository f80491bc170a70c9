#include "analyzer/planning/choose_sites.h"

#include <utility>

#include "analyzer/planning/choice_bound.h"
#include "analyzer/planning/exchange.h"
#include "analyzer/planning/greedy_choice.h"

namespace farwater::planning {

double Choice::gap() const {
    return at_most > gain ? static_cast<double>(at_most - gain) / static_cast<double>(at_most)
                          : 0.0;
}

Choice choose_sites(const ChoiceProblem& problem) {
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
    choice.greedy_gain = gain_of(problem, greedy);
    choice.sites = in_order_of_gain(problem, best);
    choice.gain = gain_of(problem, choice.sites);
    choice.at_most = bound.at_most;
    return choice;
}

}  // namespace farwater::planning
