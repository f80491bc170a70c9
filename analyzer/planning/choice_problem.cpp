#include "analyzer/planning/choice_problem.h"

#include <algorithm>
#include <numeric>

namespace farwater::planning {

Gain gain_of(const ChoiceProblem& problem, std::span<const std::uint32_t> sites) {
    Standings standings(problem);
    for (const std::uint32_t site : sites) {
        standings.take(site);
    }
    return std::accumulate(standings.best().begin(), standings.best().end(), Gain{0});
}

Cents cost_of(const ChoiceProblem& problem, std::span<const std::uint32_t> sites) {
    Cents cost = 0;
    for (const std::uint32_t site : sites) {
        cost += problem.rulings[site] == Ruling::planned ? 0 : problem.costs[site];
    }
    return cost;
}

Sites planned_sites(const ChoiceProblem& problem) {
    Sites planned;
    for (std::uint32_t site = 0; site < problem.candidates(); ++site) {
        if (problem.rulings[site] == Ruling::planned) {
            planned.push_back(site);
        }
    }
    return planned;
}

Gain Standings::added_by(std::uint32_t site) const {
    Gain added = 0;
    for (const Offer& offer : problem_.offers[site]) {
        added += std::max(Gain{0}, offer.gain - best_[offer.customer]);
    }
    return added;
}

void Standings::take(std::uint32_t site) {
    for (const Offer& offer : problem_.offers[site]) {
        best_[offer.customer] = std::max(best_[offer.customer], offer.gain);
    }
}

}  // namespace farwater::planning
