// The choice of sites against every set there is (tests/support/slow_choice.h).
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "analyzer/planning/choice_bound.h"
#include "analyzer/planning/choose_sites.h"
#include "analyzer/planning/cover_levels.h"
#include "analyzer/planning/exact_choice.h"
#include "analyzer/planning/exchange.h"
#include "analyzer/planning/greedy_choice.h"
#include "tests/planning/drawn_problem.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

constexpr unsigned seed = 20260531;
constexpr int problems = 1500;
constexpr std::size_t most_candidates = 12;
constexpr double long_enough = 60.0;  // seconds
constexpr Gain most_of_all = 1'000'000;

std::uint32_t as_set(const Sites& sites) {
    std::uint32_t set = 0;
    for (const std::uint32_t site : sites) {
        set |= 1U << site;
    }
    return set;
}

// What no choice may break.
void check_rules(const ChoiceProblem& problem, const Sites& sites) {
    const Sites planned = planned_sites(problem);
    REQUIRE(sites.size() >= planned.size());
    CHECK(std::equal(planned.begin(), planned.end(),
                     [&] {
                         Sites first(sites.begin(),
                                     sites.begin() + static_cast<std::ptrdiff_t>(planned.size()));
                         std::ranges::sort(first);
                         return first;
                     }()
                         .begin()));
    CHECK(sites.size() - planned.size() <= problem.most_sites);
    CHECK((!problem.budget || cost_of(problem, sites) <= *problem.budget));
    Sites each = sites;
    std::ranges::sort(each);
    CHECK(std::ranges::adjacent_find(each) == each.end());
    CHECK(std::ranges::none_of(
        sites, [&](auto site) { return problem.rulings[site] == Ruling::ruled_out; }));
}

}  // namespace

TEST_CASE("a choice keeps to its rules, gains what it says, and its bound is above every set") {
    CAPTURE(seed);
    std::mt19937 random(seed);
    int best_found = 0;
    for (int round = 0; round < problems; ++round) {
        CAPTURE(round);
        const DrawnProblem drawn = drawn_problem(random, most_candidates);
        const Choice choice = choose_sites(drawn.problem);
        check_rules(drawn.problem, choice.sites);
        const Gain best = slow::best_gain(drawn.table);
        REQUIRE(choice.gain == slow::gain_of_set(drawn.table, as_set(choice.sites)));
        REQUIRE(choice.gain >= choice.greedy_gain);
        REQUIRE(choice.gain <= best);
        REQUIRE(choice.at_most >= best);
        REQUIRE(choice.gap() <= 1.0);
        best_found += choice.gain == best ? 1 : 0;
    }
    CHECK(best_found >= problems * 95 / 100);
}

TEST_CASE("the exact choice is the best of every set") {
    CAPTURE(seed);
    std::mt19937 random(seed + 3);
    for (int round = 0; round < test::draws(problems / 3); ++round) {
        CAPTURE(round);
        const DrawnProblem drawn = drawn_problem(random, most_candidates);
        const Gain best = slow::best_gain(drawn.table);
        const Choice choice = choose_sites(drawn.problem, long_enough);
        check_rules(drawn.problem, choice.sites);
        REQUIRE(choice.gain == best);
        REQUIRE(choice.at_most == best);
        REQUIRE(choice.proof == Proof::best);
        // From nothing known, so that the solver has to find it.
        const Sites planned = planned_sites(drawn.problem);
        const ExactChoice exact = exact_choice(drawn.problem, planned, most_of_all, long_enough);
        check_rules(drawn.problem, in_order_of_gain(drawn.problem, exact.sites));
        REQUIRE(gain_of(drawn.problem, exact.sites) == best);
        REQUIRE(exact.proved);
        REQUIRE(exact.at_most == best);
    }
}

TEST_CASE("without time for it the exact choice says only what is known") {
    std::mt19937 random(seed + 4);
    const DrawnProblem drawn = drawn_problem(random, most_candidates);
    const Sites planned = planned_sites(drawn.problem);
    const ExactChoice exact = exact_choice(drawn.problem, planned, most_of_all, 0.0);
    CHECK(exact.at_most >= slow::best_gain(drawn.table));
    CHECK((exact.proved || exact.sites == planned));
}

TEST_CASE("levels covered by a set are worth its gain, and like customers share them") {
    CAPTURE(seed);
    std::mt19937 random(seed + 5);
    for (int round = 0; round < test::draws(problems / 3); ++round) {
        CAPTURE(round);
        const DrawnProblem drawn = drawn_problem(random, most_candidates);
        const CoverLevels levels = cover_levels(drawn.problem);
        const auto set = static_cast<std::uint32_t>(random() % (1U << drawn.problem.candidates()));
        Gain worth = 0;
        Gain expected_of_sites = 0;
        std::vector<bool> covered(levels.size());
        for (std::size_t level = 0; level < levels.size(); ++level) {
            const bool by_above =
                levels.above[level] != CoverLevels::none && covered[levels.above[level]];
            covered[level] =
                by_above || std::ranges::any_of(levels.sites[level], [&](std::uint32_t site) {
                    return (set >> site & 1U) != 0;
                });
            worth += covered[level] ? levels.worth[level] : 0;
        }
        std::uint32_t allowed = set;
        for (std::uint32_t site = 0; site < drawn.problem.candidates(); ++site) {
            if (drawn.problem.rulings[site] == Ruling::ruled_out) {
                allowed &= ~(1U << site);
            }
        }
        expected_of_sites = slow::gain_of_set(drawn.table, allowed);
        REQUIRE(worth == expected_of_sites);
    }
    ChoiceProblem twins{.customers = 50, .costs = {0, 0}, .rulings = {Ruling::open, Ruling::open}};
    for (const Gain gain : {30, 50}) {
        for (std::uint32_t customer = 0; customer < 50; ++customer) {
            twins.offers.items.push_back({customer, gain});
        }
        twins.offers.close_row();
    }
    CHECK(cover_levels(twins).size() == 2);
}

TEST_CASE("greedy choices keep their published guarantees") {
    CAPTURE(seed);
    std::mt19937 random(seed);
    const double share = 1.0 - std::exp(-1.0);
    for (int round = 0; round < problems; ++round) {
        CAPTURE(round);
        DrawnProblem drawn = drawn_problem(random, most_candidates);
        if (drawn.problem.budget) {  // the guarantee knows no second limit
            drawn.problem.most_sites = drawn.table.most_sites = most_candidates;
        }
        // It is for what is added to the planned sites.
        const Gain before = gain_of(drawn.problem, planned_sites(drawn.problem));
        const Sites greedy = greedy_choice(drawn.problem);
        const auto added = static_cast<double>(gain_of(drawn.problem, greedy) - before);
        const auto best = static_cast<double>(slow::best_gain(drawn.table) - before);
        REQUIRE(added >= (drawn.problem.budget ? share / 2.0 : share) * best - 1e-9);
    }
}

TEST_CASE("the bound holds whatever choice it starts from") {
    CAPTURE(seed);
    std::mt19937 random(seed + 1);
    for (int round = 0; round < problems / 3; ++round) {
        CAPTURE(round);
        const DrawnProblem drawn = drawn_problem(random, most_candidates);
        const Bound bound = upper_bound(drawn.problem, planned_sites(drawn.problem));
        REQUIRE(bound.at_most >= slow::best_gain(drawn.table));
        check_rules(drawn.problem, bound.taken[0]);
        check_rules(drawn.problem, bound.taken[1]);
    }
}

TEST_CASE("sites stand in the order in which each adds most, and idle ones are left out") {
    CAPTURE(seed);
    std::mt19937 random(seed + 2);
    for (int round = 0; round < problems / 3; ++round) {
        CAPTURE(round);
        const DrawnProblem drawn = drawn_problem(random, most_candidates);
        const Choice choice = choose_sites(drawn.problem);
        Standings standings(drawn.problem);
        Gain last = -1;
        for (const std::uint32_t site : choice.sites) {
            const Gain added = standings.added_by(site);
            if (drawn.problem.rulings[site] == Ruling::open) {
                REQUIRE(added > 0);
                REQUIRE((last < 0 || added <= last));
                last = added;
            }
            standings.take(site);
        }
    }
}
