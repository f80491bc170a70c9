#include "analyzer/planning/building_years.h"

#include <array>
#include <utility>

#include <catch2/catch.hpp>

using namespace farwater::planning;

namespace {

// Three sites that do not touch each other, gains 50, 30 and 20.
ChoiceProblem three_sites(std::vector<Cents> costs) {
    ChoiceProblem problem{.customers = 3,
                          .costs = std::move(costs),
                          .rulings = {Ruling::open, Ruling::open, Ruling::open}};
    for (std::uint32_t site = 0; site < 3; ++site) {
        constexpr std::array<Gain, 3> gains{50, 30, 20};
        problem.offers.items.push_back({site, gains[site]});
        problem.offers.close_row();
    }
    return problem;
}

}  // namespace

TEST_CASE("what the money at hand buys is built first, the most gain before") {
    CHECK(order_of_building(three_sites({300, 100, 100}), {0, 1, 2}, 100) == Sites{1, 2, 0});
    CHECK(order_of_building(three_sites({100, 100, 100}), {2, 1, 0}, 100) == Sites{0, 1, 2});
    CHECK(order_of_building(three_sites({100, 100, 100}), {2, 1, 0}, 1'000'000) == Sites{0, 1, 2});
}

TEST_CASE("planned places stand before all years, and what costs nothing waits for nothing") {
    ChoiceProblem problem = three_sites({300, 100, 0});
    problem.rulings[0] = Ruling::planned;
    CHECK(order_of_building(problem, {0, 1, 2}, 50) == Sites{0, 2, 1});
}

TEST_CASE("a year is that by whose end the money is there, what is left being put by") {
    const std::vector<Cents> costs{100, 100, 300, 0};
    CHECK(years_of_building(costs, 100) == std::vector<Cents>{1, 2, 5, 5});
    CHECK(years_of_building(costs, 250) == std::vector<Cents>{1, 1, 2, 2});
    CHECK(years_of_building(std::vector<Cents>{0}, 1) == std::vector<Cents>{1});
}
