// Ground elevation on a grid in the working plane.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"

namespace farwater {

// Row-major from the north-west corner; NaN where the raster has no value.
struct ElevationGrid {
    Point north_west;   // centre of the first cell
    double cell = 0.0;  // metres, square
    std::size_t columns = 0;
    std::size_t rows = 0;
    std::vector<float> metres;

    bool empty() const { return metres.empty(); }
    // Bilinear; none outside the grid or beside a cell without a value. O(1).
    std::optional<Length> at(Point p) const;
};

}  // namespace farwater
