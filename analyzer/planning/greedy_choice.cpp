#include "analyzer/planning/greedy_choice.h"

#include <queue>
#include <utility>

namespace farwater::planning {
namespace {

// What a site would add when it was last asked: never less than it would add now.
struct Promise {
    double worth = 0.0;
    Gain added = 0;
    std::uint32_t site = 0;
    std::size_t asked_at = 0;  // how many sites were taken by then

    friend bool operator<(const Promise& a, const Promise& b) {
        return std::pair(a.worth, b.site) < std::pair(b.worth, a.site);
    }
};

// A site for nothing counts as half a cent, so that it comes before all that cost something.
double worth_of(Gain added, Cents cost, GreedyRule rule) {
    const double divisor = cost > 0 ? static_cast<double>(cost) : 0.5;
    return static_cast<double>(added) / (rule == GreedyRule::most_gain ? 1.0 : divisor);
}

bool affordable(const ChoiceProblem& problem, Cents spent, std::uint32_t site) {
    return !problem.budget || problem.costs[site] <= *problem.budget - spent;
}

}  // namespace

Sites greedy_sites(const ChoiceProblem& problem, GreedyRule rule) {
    Sites sites = planned_sites(problem);
    const std::size_t planned = sites.size();
    Standings standings(problem);
    for (const std::uint32_t site : sites) {
        standings.take(site);
    }
    std::priority_queue<Promise> promises;
    const auto ask = [&](std::uint32_t site) {
        const Gain added = standings.added_by(site);
        if (added > 0) {
            promises.push({worth_of(added, problem.costs[site], rule), added, site, sites.size()});
        }
    };
    for (std::uint32_t site = 0; site < problem.candidates(); ++site) {
        if (problem.rulings[site] == Ruling::open) {
            ask(site);
        }
    }
    Cents spent = 0;
    while (!promises.empty() && sites.size() - planned < problem.most_sites) {
        const Promise best = promises.top();
        promises.pop();
        if (!affordable(problem, spent, best.site)) {
            continue;  // and never will be
        }
        if (best.asked_at < sites.size()) {
            ask(best.site);
            continue;
        }
        standings.take(best.site);
        sites.push_back(best.site);
        spent += problem.costs[best.site];
    }
    return sites;
}

Sites greedy_choice(const ChoiceProblem& problem) {
    Sites by_gain = greedy_sites(problem, GreedyRule::most_gain);
    if (!problem.budget) {
        return by_gain;
    }
    Sites by_cost = greedy_sites(problem, GreedyRule::most_gain_per_cost);
    const auto worth = [&](const Sites& sites) {
        return std::pair(gain_of(problem, sites), -cost_of(problem, sites));
    };
    return worth(by_cost) >= worth(by_gain) ? by_cost : by_gain;
}

}  // namespace farwater::planning
