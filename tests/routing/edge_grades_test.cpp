#include "routing/driving/edge_grades.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/routing/hills.h"
#include "tests/routing/random_district.h"

using namespace farwater;
using routing::Grade;

namespace {

constexpr Box box{{-300, -300}, {3300, 1300}};

District with_road(Polyline line) {
    District district;
    Road road;
    road.line = std::move(line);
    district.roads.push_back(road);
    return district;
}

std::vector<Grade> grades(const District& district) {
    return routing::build_network(district, Work{}).network.grades.steps;
}

}  // namespace

TEST_CASE("without elevation there are no grades") {
    const District district = with_road({{0, 0}, {1000, 0}});
    CHECK(routing::build_network(district, Work{}).network.grades.empty());
}

TEST_CASE("a plane has its grade in every step, uphill as drawn") {
    District district = with_road({{0, 0}, {1000, 0}, {1000, 500}});
    district.elevation = test::ground(box, 10, [](double x, double) { return 100 + 0.05 * x; });
    const std::vector<Grade> found = grades(district);
    CHECK(found.size() == 50);  // 1,500 m in steps of at most 100 ft
    for (std::size_t i = 0; i < found.size(); ++i) {
        const bool up = i < 33;
        const bool bend = i == 33;
        CHECK(std::abs(found[i] - (up ? 500 : 0)) <= (bend ? 500 : 1));
    }
    std::ranges::reverse(district.roads[0].line);
    CHECK(std::abs(grades(district).back() + 500) <= 1);
}

TEST_CASE("steps are no longer than a cell where cells are large, and one at least") {
    District district = with_road({{0, 0}, {1000, 0}});
    district.roads.push_back(district.roads[0]);
    district.roads[1].line = {{0, 500}, {3, 500}};
    district.elevation = test::ground(box, 200, [](double, double) { return 0; });
    const auto network = routing::build_network(district, Work{}).network;
    CHECK(network.grades.of(0).size() == 5);
    CHECK(network.grades.of(1).size() == 1);
}

TEST_CASE("noise of the heights makes no steep grades") {
    District district = with_road({{0, 400}, {3000, 430}});
    test::Dice dice(7);
    // A cell of 30 m whose heights are off by up to 4 m: neighbours differ by up to 27 %.
    district.elevation =
        test::ground(box, 30, [&](double, double) { return 100 + dice.between(-4, 4); });
    double sum = 0.0;
    for (const Grade grade : grades(district)) {
        CHECK(std::abs(grade) < 1000);
        sum += std::abs(grade);
    }
    CHECK(sum / static_cast<double>(grades(district).size()) < 250);
}

TEST_CASE("where the data cut a road makes no difference to its grades") {
    const auto hill = [](double x, double y) { return 30 * std::sin(x / 150) + 0.02 * y; };
    District whole = with_road({{0, 0}, {1500, 300}});
    whole.elevation = test::ground(box, 10, hill);
    District cut = with_road({{0, 0}, {500, 100}});
    cut.roads.push_back(cut.roads[0]);
    cut.roads[1].line = {{500, 100}, {1500, 300}};
    cut.elevation = whole.elevation;
    const auto of_whole = grades(whole);
    const auto of_cut = grades(cut);
    REQUIRE(of_whole.size() == of_cut.size());
    for (std::size_t i = 0; i < of_whole.size(); ++i) {
        CHECK(std::abs(of_whole[i] - of_cut[i]) <= 1);
    }
}

TEST_CASE("a bridge rises evenly from end to end, whatever lies below") {
    District district = with_road({{0, 0}, {600, 0}});
    district.elevation = test::ground(box, 10, [](double x, double) {
        return 0.02 * x - (x > 100 && x < 500 ? 40 : 0);  // a gorge
    });
    const std::vector<Grade> into_the_gorge = grades(district);
    CHECK(*std::ranges::max_element(into_the_gorge) == routing::steepest_counted);
    district.roads[0].bridge = true;
    for (const Grade grade : grades(district)) {
        CHECK(grade == 200);
    }
    district.roads[0].bridge = false;
    district.roads[0].tunnel = true;
    CHECK(grades(district).front() == 200);
}

TEST_CASE("no step is steeper than 18 %, as drawn and against") {
    District district = with_road({{0, 0}, {1000, 0}});
    district.elevation =
        test::ground(box, 10, [](double x, double) { return x < 500 ? x : 1000 - x; });
    const auto found = grades(district);
    CHECK(*std::ranges::max_element(found) == 1800);
    CHECK(*std::ranges::min_element(found) == -1800);
}

TEST_CASE("beside a height that is not known the point's own counts, without one no grade") {
    District district = with_road({{0, 0}, {1000, 0}});
    district.elevation = test::ground(box, 10, [](double x, double y) {
        const bool hole = x > 395 && x < 505 && y > -15 && y < 15;
        return hole ? std::numeric_limits<double>::quiet_NaN() : 0.03 * x;
    });
    int unknown = 0;
    for (const Grade grade : grades(district)) {
        unknown += grade == routing::no_grade ? 1 : 0;
        CHECK((grade == routing::no_grade || std::abs(grade - 300) <= 1));
    }
    CHECK(unknown >= 4);
    CHECK(unknown <= 7);
    district.roads[0].line = {{5000, 0}, {6000, 0}};  // off the grid
    for (const Grade grade : grades(district)) {
        CHECK(grade == routing::no_grade);
    }
}
