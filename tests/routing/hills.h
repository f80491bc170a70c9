// Ground for drawn roads.
#pragma once

#include <cstddef>

#include "analyzer/district/elevation.h"
#include "analyzer/district/plane.h"

namespace farwater::test {

// A grid over the box whose cells have height(x, y), metres.
template <class HeightOf>
ElevationGrid ground(Box box, double cell, HeightOf height) {
    ElevationGrid grid;
    grid.north_west = {box.low.x, box.high.y};
    grid.cell = cell;
    grid.columns = static_cast<std::size_t>((box.high.x - box.low.x) / cell) + 1;
    grid.rows = static_cast<std::size_t>((box.high.y - box.low.y) / cell) + 1;
    for (std::size_t row = 0; row < grid.rows; ++row) {
        for (std::size_t column = 0; column < grid.columns; ++column) {
            grid.metres.push_back(
                static_cast<float>(height(box.low.x + cell * static_cast<double>(column),
                                          box.high.y - cell * static_cast<double>(row))));
        }
    }
    return grid;
}

}  // namespace farwater::test
