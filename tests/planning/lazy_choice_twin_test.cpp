// Choices by bounds against choices by true offers.
#include <algorithm>

#include <catch2/catch.hpp>

#include "analyzer/planning/greedy_choice.h"
#include "analyzer/planning/lazy_choice.h"
#include "tests/planning/drawn_problem.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

constexpr unsigned lazy_seed = 20261129;

// Offers to more customers, and larger ones.
ChoiceProblem bounds_of(const ChoiceProblem& problem, std::mt19937& random) {
    ChoiceProblem bounds = problem;
    bounds.offers = {};
    const std::size_t looseness = 1 + random() % 6;
    for (std::uint32_t site = 0; site < problem.candidates(); ++site) {
        std::vector<Gain> most(problem.customers, 0);
        for (const Offer& offer : problem.offers[site]) {
            most[offer.customer] = offer.gain;
        }
        for (std::uint32_t customer = 0; customer < problem.customers; ++customer) {
            most[customer] += random() % 4 == 0 ? static_cast<Gain>(random() % looseness) : 0;
            if (most[customer] > 0) {
                bounds.offers.items.push_back({customer, most[customer]});
            }
        }
        bounds.offers.close_row();
    }
    return bounds;
}

WorkOut true_offers(const ChoiceProblem& problem, std::size_t& asked) {
    return [&problem, &asked](std::uint32_t site) -> std::optional<WorkedOut> {
        ++asked;
        const std::span<const Offer> offers = problem.offers[site];
        return WorkedOut{{offers.begin(), offers.end()}, offers.empty()};
    };
}

}  // namespace

TEST_CASE("a choice by bounds is greedy's, gains what it says, and its bound is above every set",
          "[twin]") {
    CAPTURE(lazy_seed);
    std::mt19937 random(lazy_seed);
    std::size_t refused = 0;
    std::size_t same = 0;
    constexpr std::size_t draws = 1000;
    for (std::size_t draw = 0; draw < draws; ++draw) {
        CAPTURE(draw);
        const DrawnProblem drawn = drawn_problem(random, 12);
        const ChoiceProblem& truth = drawn.problem;
        std::size_t asked = 0;
        const auto lazy =
            choose_lazily(bounds_of(truth, random), true_offers(truth, asked), std::nullopt, false);
        REQUIRE(lazy);
        const Choice eager = choose_sites(truth);
        for (const std::uint32_t site : lazy->choice.sites) {
            REQUIRE(lazy->worked_out[site] != 0);
        }
        REQUIRE(asked == static_cast<std::size_t>(std::ranges::count(lazy->worked_out, 1)));
        CHECK(lazy->choice.gain == gain_of(truth, lazy->choice.sites));
        CHECK(lazy->choice.greedy_gain == eager.greedy_gain);
        CHECK(greedy_choice(lazy->problem) == greedy_choice(truth));
        CHECK(lazy->choice.at_most >= slow::best_gain(drawn.table));
        same += lazy->choice.gain == eager.gain ? 1U : 0U;
        refused += truth.candidates() - asked;
    }
    CHECK(same > draws * 99 / 100);
    CHECK(refused > draws);
}

TEST_CASE("the exact choice by bounds gains what the best set gains", "[twin]") {
    CAPTURE(lazy_seed);
    std::mt19937 random(lazy_seed);
    for (int draw = 0; draw < 60; ++draw) {
        CAPTURE(draw);
        const DrawnProblem drawn = drawn_problem(random, 9);
        std::size_t asked = 0;
        const auto lazy = choose_lazily(bounds_of(drawn.problem, random),
                                        true_offers(drawn.problem, asked), 60.0, false);
        REQUIRE(lazy);
        CHECK(lazy->choice.gain == slow::best_gain(drawn.table));
        CHECK(gain_of(drawn.problem, lazy->choice.sites) == lazy->choice.gain);
        CHECK(lazy->choice.at_most == lazy->choice.gain);
    }
}

TEST_CASE("with every site worked out the choice is that of true offers", "[twin]") {
    CAPTURE(lazy_seed);
    std::mt19937 random(lazy_seed);
    for (int draw = 0; draw < 300; ++draw) {
        CAPTURE(draw);
        const DrawnProblem drawn = drawn_problem(random, 12);
        std::size_t asked = 0;
        const auto lazy = choose_lazily(bounds_of(drawn.problem, random),
                                        true_offers(drawn.problem, asked), std::nullopt, true);
        REQUIRE(lazy);
        const Choice eager = choose_sites(drawn.problem);
        CHECK(lazy->choice.sites == eager.sites);
        CHECK(lazy->choice.gain == eager.gain);
        CHECK(asked == static_cast<std::size_t>(std::ranges::count_if(
                           drawn.problem.rulings,
                           [](Ruling ruling) { return ruling != Ruling::ruled_out; })));
    }
}

TEST_CASE("a choice by bounds ends when it is stopped", "[unit]") {
    ChoiceProblem problem;
    problem.customers = 1;
    problem.offers = {{0, 1}, {{0, 5}}};
    problem.costs = {1};
    problem.rulings = {Ruling::open};
    CHECK_FALSE(
        choose_lazily(problem, [](std::uint32_t) { return std::nullopt; }, std::nullopt, false));
}
