// Random problems of choice, as the engine and as its twin take them.
#pragma once

#include <random>

#include "analyzer/planning/choice_problem.h"
#include "tests/support/slow_choice.h"

namespace farwater::planning {

struct DrawnProblem {
    ChoiceProblem problem;
    slow::SiteTable table;
};

// Few values, so that gains and costs tie; some sites cost nothing, some do nothing.
inline DrawnProblem drawn_problem(std::mt19937& random, std::size_t most_candidates) {
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
    DrawnProblem drawn;
    const std::size_t candidates = 1 + below(most_candidates);
    const std::size_t customers = 1 + below(30);
    const std::size_t values = 1 + below(40);
    const std::size_t sparse = 1 + below(4);
    ChoiceProblem& problem = drawn.problem;
    problem.customers = customers;
    for (std::size_t site = 0; site < candidates; ++site) {
        std::vector<std::int64_t>& gains = drawn.table.gains.emplace_back(customers, 0);
        for (std::uint32_t customer = 0; customer < customers; ++customer) {
            if (below(sparse) == 0) {
                gains[customer] = static_cast<std::int64_t>(below(values + 1));
            }
            if (gains[customer] > 0) {
                problem.offers.items.push_back({customer, gains[customer]});
            }
        }
        problem.offers.close_row();
        problem.costs.push_back(static_cast<Cents>(below(9)));
        const std::size_t ruling = below(12);
        problem.rulings.push_back(ruling == 0   ? Ruling::planned
                                  : ruling == 1 ? Ruling::ruled_out
                                                : Ruling::open);
        drawn.table.planned.push_back(ruling == 0);
        drawn.table.ruled_out.push_back(ruling == 1);
    }
    const bool by_budget = below(2) == 0;
    if (by_budget) {
        problem.budget = static_cast<Cents>(below(25));
    }
    if (!by_budget || below(4) == 0) {
        problem.most_sites = below(candidates + 2);
    }
    drawn.table.costs = problem.costs;
    drawn.table.budget = problem.budget;
    drawn.table.most_sites = problem.most_sites;
    return drawn;
}

}  // namespace farwater::planning
