// Unions and groups of rectangles on a grid, against counting the grid's cells one by one.
#include <algorithm>
#include <numeric>
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/geometry/dissolve.h"
#include "tests/support/draws.h"

using namespace farwater;

namespace {

struct Rectangle {
    int west, south, east, north;  // cells of 1 m, east and north not counted in
};

Polyline ring_of(const Rectangle& r) {
    const auto at = [](int x, int y) {
        return Point{static_cast<double>(x), static_cast<double>(y)};
    };
    return {at(r.west, r.south), at(r.east, r.south), at(r.east, r.north), at(r.west, r.north),
            at(r.west, r.south)};
}

std::vector<Rectangle> drawn(std::mt19937& random, std::size_t count) {
    std::uniform_int_distribution<int> corner(0, 60);
    std::uniform_int_distribution<int> side(1, 12);
    std::vector<Rectangle> rectangles(count);
    for (Rectangle& r : rectangles) {
        r.west = corner(random);
        r.south = corner(random);
        r.east = r.west + side(random);
        r.north = r.south + side(random);
    }
    return rectangles;
}

Footprints shapes_of(const std::vector<Rectangle>& rectangles) {
    Footprints shapes;
    for (const Rectangle& r : rectangles) {
        const MultiPolygon shape{{ring_of(r), {}}};
        shapes.add(shape, area_m2(shape));
    }
    return shapes;
}

std::vector<std::uint32_t> all_of(std::size_t count) {
    std::vector<std::uint32_t> which(count);
    std::iota(which.begin(), which.end(), 0U);
    return which;
}

std::size_t cells_covered(const std::vector<Rectangle>& rectangles) {
    std::size_t covered = 0;
    for (int x = 0; x < 80; ++x) {
        for (int y = 0; y < 80; ++y) {
            covered += std::ranges::any_of(rectangles, [&](const Rectangle& r) {
                return x >= r.west && x < r.east && y >= r.south && y < r.north;
            });
        }
    }
    return covered;
}

// Twice the area, positive where the ring turns left.
double turning(const Polyline& ring) {
    double sum = 0.0;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        sum += ring[i - 1].x * ring[i].y - ring[i].x * ring[i - 1].y;
    }
    return sum;
}

bool is_normal(const Polygon& polygon) {
    const auto begins_west = [](const Polyline& ring) {
        return *std::ranges::min_element(ring) == ring.front();
    };
    return turning(polygon.shell) < 0.0 && begins_west(polygon.shell) &&
           std::ranges::all_of(
               polygon.holes,
               [&](const Polyline& hole) { return turning(hole) > 0.0 && begins_west(hole); });
}

// Squared, so that it is a whole number.
int gap_squared(const Rectangle& a, const Rectangle& b) {
    const int x = std::max({0, b.west - a.east, a.west - b.east});
    const int y = std::max({0, b.south - a.north, a.south - b.north});
    return x * x + y * y;
}

// Everybody takes the least number of whom they reach, until nothing changes.
std::vector<std::uint32_t> groups_slowly(const std::vector<Rectangle>& rectangles, int reach) {
    std::vector<std::uint32_t> least = all_of(rectangles.size());
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t a = 0; a < least.size(); ++a) {
            for (std::size_t b = 0; b < least.size(); ++b) {
                if (gap_squared(rectangles[a], rectangles[b]) <= reach * reach &&
                    least[b] < least[a]) {
                    least[a] = least[b];
                    changed = true;
                }
            }
        }
    }
    std::vector<std::uint32_t> firsts = least;
    std::ranges::sort(firsts);
    firsts.erase(std::unique(firsts.begin(), firsts.end()), firsts.end());
    for (std::uint32_t& group : least) {
        group =
            static_cast<std::uint32_t>(std::ranges::lower_bound(firsts, group) - firsts.begin());
    }
    return least;
}

}  // namespace

TEST_CASE("a union covers the cells that its shapes cover, and is valid") {
    const unsigned seed = 61;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(100); ++round) {
        const auto rectangles = drawn(random, 1 + random() % 60);
        const MultiPolygon whole = dissolved(shapes_of(rectangles), all_of(rectangles.size()));
        CAPTURE(round);
        REQUIRE(area_m2(whole) == Approx(static_cast<double>(cells_covered(rectangles))));
        REQUIRE(is_valid(whole));
        REQUIRE(std::ranges::all_of(whole, is_normal));
    }
}

TEST_CASE("groups are the chains of near neighbours that looking at every pair finds") {
    const unsigned seed = 62;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(100); ++round) {
        const auto rectangles = drawn(random, 1 + random() % 40);
        const int reach = static_cast<int>(random() % 6);
        CAPTURE(round, reach);
        REQUIRE(groups_within(shapes_of(rectangles), all_of(rectangles.size()), metres(reach)) ==
                groups_slowly(rectangles, reach));
    }
}

TEST_CASE("what stands in a yard is as near as the yard's sides, what lies on ground is there") {
    Footprints shapes;
    const auto add = [&](const MultiPolygon& shape) { shapes.add(shape, area_m2(shape)); };
    add({{ring_of({0, 0, 40, 40}), {ring_of({10, 10, 30, 30})}}});
    add({{ring_of({13, 14, 20, 20}), {}}});
    add({{ring_of({2, 2, 4, 4}), {}}});
    const std::vector<std::uint32_t> which{0, 1, 2};
    CHECK(groups_within(shapes, which, metres(2.9)) == std::vector<std::uint32_t>{0, 1, 0});
    CHECK(groups_within(shapes, which, metres(3.0)) == std::vector<std::uint32_t>{0, 0, 0});
    CHECK(groups_within(shapes, which, metres(0.0)) == std::vector<std::uint32_t>{0, 1, 0});
}

TEST_CASE("hairlines close, holes stay, and a shape that crosses itself is united too") {
    Footprints shapes;
    const auto add = [&](const Polyline& ring) {
        const MultiPolygon shape{{ring, {}}};
        shapes.add(shape, std::abs(area_m2(shape)) + 1.0);
    };
    // Four walls round a yard; the last one begins 4 cm off.
    add({{0, 0}, {30, 0}, {30, 10}, {0, 10}, {0, 0}});
    add({{0, 10}, {10, 10}, {10, 20}, {0, 20}, {0, 10}});
    add({{20, 10}, {30, 10}, {30, 20}, {20, 20}, {20, 10}});
    add({{0, 20.04}, {30, 20.04}, {30, 30}, {0, 30}, {0, 20.04}});
    const std::vector<std::uint32_t> which{0, 1, 2, 3};
    const MultiPolygon ring = dissolved(shapes, which);
    REQUIRE(ring.size() == 1);
    REQUIRE(ring[0].holes.size() == 1);
    CHECK(area_m2(ring) == Approx(800.0).margin(2.0));
    add({{100, 0}, {110, 10}, {110, 0}, {100, 10}, {100, 0}});  // a bow tie
    const std::vector<std::uint32_t> with_tie{0, 4};
    CHECK(area_m2(dissolved(shapes, with_tie)) == Approx(300.0 + 50.0));
    CHECK(dissolved(shapes, std::vector<std::uint32_t>{}).empty());
}

TEST_CASE("a hairline of ground under two shapes is no hole") {
    Footprints shapes;
    const auto add = [&](const Polyline& ring) {
        const MultiPolygon shape{{ring, {}}};
        shapes.add(shape, area_m2(shape));
    };
    // The eastern one reaches 10 cm over the common border, in its middle.
    add({{0, 0}, {1000, 0}, {1000, 999}, {1000, 2000}, {0, 2000}, {0, 0}});
    add({{1000, 0}, {2000, 0}, {2000, 2000}, {1000, 2000}, {999.9, 1000}, {1000, 999}, {1000, 0}});
    add({{0, 2000}, {1000, 2000}, {2000, 2000}, {2000, 90000}, {0, 90000}, {0, 2000}});
    const MultiPolygon whole = dissolved(shapes, std::vector<std::uint32_t>{0, 1, 2});
    REQUIRE(whole.size() == 1);
    CHECK(whole[0].holes.empty());
}

TEST_CASE("rings as a record lists them become shells with their holes") {
    const Polyline shell{{0, 0}, {9, 0}, {9, 9}, {0, 9}, {0, 0}};
    const Polyline hole{{1, 1}, {1, 2}, {2, 2}, {2, 1}, {1, 1}};
    const Polyline beside{{9, 0}, {20, 0}, {20, 9}, {9, 9}, {9, 0}};
    const MultiPolygon shape =
        shape_of_rings(std::vector<Polyline>{shell, hole, {{0, 0}, {1, 1}}, beside});
    REQUIRE(shape.size() == 2);
    CHECK(shape[0].holes.size() == 1);
    CHECK(shape[1].holes.empty());
    CHECK(area_m2(shape) == Approx(81.0 - 1.0 + 99.0));
    CHECK(shape_of_rings({}).empty());
}
