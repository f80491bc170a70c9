// Separations by the index against all pairs.
#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/geometry/separation.h"
#include "tests/support/slow_separation.h"

using namespace farwater;
using namespace farwater::support;

namespace {

Footprints footprints_of(const std::vector<PlainBuilding>& buildings) {
    Footprints footprints;
    for (const PlainBuilding& building : buildings) {
        if (building.ring.size() == 1) {
            footprints.add_point(building.ring[0]);
        } else {
            footprints.add({{building.ring, {}}}, building.area_m2);
        }
    }
    return footprints;
}

PlainBuilding rectangle(double x, double y, double width, double depth, double turned = 0.0) {
    PlainBuilding building;
    for (const Point p :
         {Point{0, 0}, Point{width, 0}, Point{width, depth}, Point{0, depth}, Point{0, 0}}) {
        building.ring.push_back({x + p.x * std::cos(turned) - p.y * std::sin(turned),
                                 y + p.x * std::sin(turned) + p.y * std::cos(turned)});
    }
    building.area_m2 = width * depth;
    return building;
}

void check_all(const std::vector<PlainBuilding>& buildings, double reach_m, double large_m2) {
    const Footprints footprints = footprints_of(buildings);
    const SeparationIndex index(footprints, {metres(reach_m), large_m2});
    for (std::size_t i = 0; i < buildings.size(); ++i) {
        CAPTURE(i);
        const Separation fast = index.around(i).separation;
        const Separation slow = slow_separation(buildings, i, reach_m, large_m2);
        CHECK(fast.known == slow.known);
        const auto same = [](float a, float b) { return a == b || std::abs(a - b) < 1e-5F; };
        CHECK(same(fast.nearest_m, slow.nearest_m));
        CHECK(same(fast.nearest_large_m, slow.nearest_large_m));
        CHECK(fast.sides_ft == slow.sides_ft);
    }
}

}  // namespace

TEST_CASE("separations by the index are those of all pairs", "[twin]") {
    const unsigned seed = GENERATE(1U, 2U, 3U, 4U, 5U, 6U);
    CAPTURE(seed);
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    // From a hamlet where most stand alone to a street where they overlap.
    const double land = 60.0 * seed;
    std::vector<PlainBuilding> buildings;
    for (int i = 0; i < 120; ++i) {
        buildings.push_back(i % 17 == 0 ? PlainBuilding{{{between(0, land), between(0, land)}}, 0}
                                        : rectangle(between(0, land), between(0, land),
                                                    between(2, 20), between(2, 12), between(0, 6)));
    }
    check_all(buildings, 30.48, 9.290304);
}

TEST_CASE("buildings that touch, overlap or lie in each other are nothing apart", "[unit]") {
    const std::vector<PlainBuilding> buildings{rectangle(0, 0, 10, 10), rectangle(10, 0, 10, 10),
                                               rectangle(5, 5, 10, 10), rectangle(2, 2, 4, 4)};
    check_all(buildings, 30.48, 9.290304);
    const Footprints footprints = footprints_of(buildings);
    const SeparationIndex index(footprints, {metres(30.48), 9.290304});
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(index.around(i).separation.nearest_m == 0.0F);
    }
    // The small one lies in the first altogether; touching walls and a shared corner are no
    // overlap.
    CHECK(index.around(3).covers == 0U);
    CHECK_FALSE(index.around(1).covers);
    CHECK_FALSE(index.around(2).covers);
}

TEST_CASE("a neighbour at the reach counts, one beyond does not", "[unit]") {
    const std::vector<PlainBuilding> buildings{rectangle(0, 0, 8, 8), rectangle(28, 0, 8, 8)};
    const Footprints footprints = footprints_of(buildings);
    const SeparationIndex at(footprints, {metres(20), 9.0});
    CHECK(at.around(0).separation.nearest_m == 20.0F);
    CHECK(at.around(0).separation.sides_ft[0] == 65);
    const SeparationIndex below(footprints, {metres(19.99), 9.0});
    CHECK(below.around(0).separation.nearest_m == Separation::none);
    CHECK(below.around(0).separation.sides_ft[0] == Separation::no_side);
}

TEST_CASE("a courtyard's hole is no wall, and a part of a building belongs to it", "[unit]") {
    Footprints footprints;
    const Polyline shell{{0, 0}, {40, 0}, {40, 40}, {0, 40}, {0, 0}};
    const Polyline yard{{10, 10}, {10, 30}, {30, 30}, {30, 10}, {10, 10}};
    footprints.add({{shell, {yard}}}, 1200);
    footprints.add({{rectangle(18, 18, 4, 4).ring, {}}}, 16);
    footprints.add({{rectangle(60, 0, 4, 4).ring, {}}, {rectangle(44, 0, 4, 4).ring, {}}}, 32);
    const SeparationIndex index(footprints, {metres(30), 9.0});
    CHECK(index.around(1).separation.nearest_m == 8.0F);
    CHECK(index.around(0).separation.nearest_m == 4.0F);
    CHECK_FALSE(index.around(1).covers);
    CHECK(index.touching({{59, 1}, {59.5, 2}}) == std::vector<std::uint32_t>{2});
}

TEST_CASE("the share of a building on a parcel is its common ground", "[unit]") {
    const Footprints footprints = footprints_of({rectangle(0, 0, 10, 10), {{{3, 3}}, 0}});
    const MultiPolygon parcel{{{{7.5, -5}, {20, -5}, {20, 20}, {7.5, 20}, {7.5, -5}}, {}}};
    CHECK(footprints.may_lie_on(0, parcel));
    CHECK(share_on(footprints, 0, parcel) == Approx(0.25));
    CHECK(share_on(footprints, 1, parcel) == 0.0);
    // A strip through the building with no corner of either in the other.
    const MultiPolygon strip{{{{4, -5}, {6, -5}, {6, 20}, {4, 20}, {4, -5}}, {}}};
    CHECK(footprints.may_lie_on(0, strip));
    CHECK(share_on(footprints, 0, strip) == Approx(0.2));
}
