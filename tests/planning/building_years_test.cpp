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
    const std::vector<Outlay> costs{{100}, {100}, {300}, {0}};
    CHECK(years_of_building(costs, 100) == std::vector<Cents>{1, 2, 5, 5});
    CHECK(years_of_building(costs, 250) == std::vector<Cents>{1, 1, 2, 2});
    CHECK(years_of_building(std::vector<Outlay>{{0}}, 1) == std::vector<Cents>{1});
}

TEST_CASE("upkeep is paid from the year of buying on, and leaves less for what comes after it") {
    // 100 + 10 in year 1; then 90 a year less 10: 40 + 80 + 80 = 200 by year 3, 50 by year 4.
    const std::vector<Outlay> two{{100, 10}, {250, 0}};
    CHECK(years_of_building(two, 150) == std::vector<Cents>{1, 3});
    CHECK(years_of_building(std::vector<Outlay>{{100, 10}, {350, 20}}, 110) ==
          std::vector<Cents>{1, 5});
}

TEST_CASE("what no year can keep up beside what stands before it is left out") {
    const ChoiceProblem problem = three_sites({0, 100, 0});
    const std::vector<Cents> upkeep{80, 0, 30};
    // The first takes 80 of 100 a year, so the third never fits, and the second takes five years.
    CHECK(order_of_building(problem, {0, 1, 2}, 100, upkeep) == Sites{0, 1});
    CHECK(years_of_building(std::vector<Outlay>{{0, 80}, {100, 0}}, 100) ==
          std::vector<Cents>{1, 5});
    CHECK(order_of_building(problem, {0, 1, 2}, 110, upkeep) == Sites{0, 2});
    CHECK(order_of_building(problem, {0, 1, 2}, 79, upkeep) == Sites{2, 1});
}
