#include "analyzer/planning/building_years.h"

#include <algorithm>
#include <tuple>

namespace farwater::planning {
namespace {

Cents years_to_save(Cents cost, Cents yearly) { return (cost + yearly - 1) / yearly; }

}  // namespace

Sites order_of_building(const ChoiceProblem& problem, const Sites& sites, Cents yearly) {
    Standings standings(problem);
    Sites order;
    Sites waiting;
    for (const std::uint32_t site : sites) {
        if (problem.rulings[site] == Ruling::planned) {
            standings.take(site);
            order.push_back(site);
        } else {
            waiting.push_back(site);
        }
    }
    Cents at_hand = yearly;
    while (!waiting.empty()) {
        const auto cost = [&](std::uint32_t site) { return problem.costs[site]; };
        const Cents cheapest = cost(*std::ranges::min_element(waiting, {}, cost));
        if (cheapest > at_hand) {
            at_hand += years_to_save(cheapest - at_hand, yearly) * yearly;
        }
        const auto worth = [&](std::uint32_t site) {
            return std::tuple(cost(site) > at_hand, -standings.added_by(site), cost(site), site);
        };
        const auto best = std::ranges::min_element(waiting, {}, worth);
        at_hand -= cost(*best);
        standings.take(*best);
        order.push_back(*best);
        waiting.erase(best);
    }
    return order;
}

std::vector<Cents> years_of_building(std::span<const Cents> costs, Cents yearly) {
    std::vector<Cents> years;
    Cents together = 0;
    for (const Cents cost : costs) {
        together += cost;
        years.push_back(std::max(Cents{1}, years_to_save(together, yearly)));
    }
    return years;
}

}  // namespace farwater::planning
