#include "analyzer/district/elevation.h"

#include <cmath>

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

// Three by two cells of 10 m: heights rise by 1 m to the east and by 10 m to the south.
ElevationGrid slope() { return {{100, 200}, 10.0, 3, 2, {0, 1, 2, 10, 11, 12}}; }

}  // namespace

TEST_CASE("elevation at a cell's centre is the cell's") {
    CHECK(in_metres(slope().at({100, 200}).value()) == 0.0);
    CHECK(in_metres(slope().at({120, 200}).value()) == 2.0);
    CHECK(in_metres(slope().at({120, 190}).value()) == 12.0);
}

TEST_CASE("elevation between cells is bilinear") {
    CHECK(in_metres(slope().at({105, 195}).value()) == Approx(5.5));
    CHECK(in_metres(slope().at({117.5, 200}).value()) == Approx(1.75));
}

TEST_CASE("there is no elevation outside the grid") {
    CHECK_FALSE(slope().at({99.9, 200}));
    CHECK_FALSE(slope().at({120.1, 200}));
    CHECK_FALSE(slope().at({110, 200.1}));
    CHECK_FALSE(slope().at({110, 189.9}));
    CHECK_FALSE(ElevationGrid{}.at({0, 0}));
}

TEST_CASE("there is no elevation beside a cell without a value") {
    ElevationGrid grid = slope();
    grid.metres[1] = std::nanf("");
    CHECK_FALSE(grid.at({105, 195}));
    CHECK_FALSE(grid.at({115, 195}));
}

TEST_CASE("a grid of one cell has one elevation") {
    const ElevationGrid grid{{0, 0}, 10.0, 1, 1, {7}};
    CHECK(in_metres(grid.at({0, 0}).value()) == 7.0);
    CHECK_FALSE(grid.at({1, 0}));
}
