// Unions of cells of a crooked net, against asking of every cell whether it is among them.
#include <algorithm>
#include <array>
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/geometry/shared_borders.h"
#include "tests/support/draws.h"

using namespace farwater;

namespace {

constexpr int side = 12;
constexpr double grid_m = 0.1;

// Corners of the net, up to 3 m from where an even one of 10 m has them.
struct Net {
    std::vector<Point> corners;

    explicit Net(std::mt19937& random) {
        std::uniform_int_distribution<int> off(-30, 30);
        for (int y = 0; y <= side; ++y) {
            for (int x = 0; x <= side; ++x) {
                corners.push_back({x * 10.0 + off(random) * 0.1, y * 10.0 + off(random) * 0.1});
            }
        }
    }
    Point corner(int x, int y) const {
        return corners[static_cast<std::size_t>(y * (side + 1) + x)];
    }
    Polyline cell(int x, int y) const {
        return {corner(x, y), corner(x + 1, y), corner(x + 1, y + 1), corner(x, y + 1),
                corner(x, y)};
    }
    static Point middle(int x, int y) { return {x * 10.0 + 5.0, y * 10.0 + 5.0}; }
};

Footprints all_cells(const Net& net, std::mt19937& random) {
    Footprints shapes;
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            Polyline ring = net.cell(x, y);
            if (random() % 2 == 0) {
                std::ranges::reverse(ring);
            }
            shapes.add({{ring, {}}}, area_m2({{ring, {}}}));
        }
    }
    return shapes;
}

std::vector<std::uint32_t> drawn(std::mt19937& random) {
    const auto share = 1 + random() % 9;
    std::vector<std::uint32_t> which;
    for (std::uint32_t i = 0; i < side * side; ++i) {
        if (random() % 10 < share) {
            which.push_back(i);
        }
    }
    std::ranges::shuffle(which, random);
    return which;
}

Footprints of_rings(const std::vector<Polyline>& rings) {
    Footprints shapes;
    for (const Polyline& ring : rings) {
        shapes.add({{ring, {}}}, area_m2({{ring, {}}}));
    }
    return shapes;
}

constexpr std::array<std::uint32_t, 2> both{0, 1};

}  // namespace

TEST_CASE("cells of a net without shared borders are the ground of just these cells") {
    const unsigned seed = 64;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(200); ++round) {
        CAPTURE(round);
        const Net net(random);
        const Footprints cells = all_cells(net, random);
        const std::vector<std::uint32_t> which = drawn(random);
        const auto whole = without_shared_borders(cells, which, grid_m);
        REQUIRE(whole);
        REQUIRE((whole->empty() || is_valid(*whole)));
        double area = 0.0;
        for (const std::uint32_t i : which) {
            area += cells.area_m2(i);
        }
        REQUIRE(area_m2(*whole) == Approx(area));
        for (std::uint32_t i = 0; i < side * side; ++i) {
            const Point middle =
                Net::middle(static_cast<int>(i) % side, static_cast<int>(i) / side);
            REQUIRE(contains(*whole, middle) == (std::ranges::count(which, i) == 1));
        }
    }
}

TEST_CASE("what does not meet corner by corner is no valid ground, or none") {
    const auto valid = [](const std::vector<Polyline>& rings) {
        const auto whole = without_shared_borders(of_rings(rings), both, grid_m);
        return whole && is_valid(*whole);
    };
    const Polyline square{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}};
    CHECK(valid({square, {{10, 0}, {20, 0}, {20, 10}, {10, 10}, {10, 0}}}));
    CHECK_FALSE(valid({square, square}));
    CHECK_FALSE(valid({square, {{5, 0}, {20, 0}, {20, 10}, {5, 10}, {5, 0}}}));
    CHECK_FALSE(valid({square, {{2, 2}, {8, 2}, {8, 8}, {2, 8}, {2, 2}}}));
    CHECK_FALSE(valid({square, {{10, 5}, {20, 5}, {20, 20}, {10, 20}, {10, 5}}}));
    CHECK_FALSE(without_shared_borders(of_rings({square, {{0, 0}, {9e9, 0}, {9e9, 1}, {0, 0}}}),
                                       both, grid_m));
}

TEST_CASE("a yard that touches the outside in one corner is a hole, and so is one in an island") {
    // Eight cells round a yard; the yard's corner pulled out to the border.
    const Polyline round{{0, 0}, {30, 0}, {30, 30}, {0, 30}, {0, 0}};
    Footprints shapes;
    shapes.add({{round, {{{0, 0}, {20, 10}, {20, 20}, {10, 20}, {0, 0}}}}}, 600.0);
    const Polyline island{{15, 12}, {19, 12}, {19, 16}, {15, 16}, {15, 12}};
    shapes.add({{island, {{{16, 13}, {17, 13}, {17, 14}, {16, 13}}}}}, 15.5);
    const auto whole = without_shared_borders(shapes, both, grid_m);
    REQUIRE(whole);
    CHECK(is_valid(*whole));
    REQUIRE(whole->size() == 2);
    CHECK((*whole)[0].holes.size() == 1);
    CHECK((*whole)[1].holes.size() == 1);
    CHECK_FALSE(contains(*whole, {12, 11}));
    CHECK(contains(*whole, {18, 15}));
    CHECK_FALSE(contains(*whole, {16.75, 13.25}));
}
