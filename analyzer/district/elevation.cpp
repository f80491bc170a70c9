#include "analyzer/district/elevation.h"

#include <algorithm>
#include <cmath>

namespace farwater {

std::optional<Length> ElevationGrid::at(Point p) const {
    if (empty()) {
        return std::nullopt;
    }
    const double column = (p.x - north_west.x) / cell;
    const double row = (north_west.y - p.y) / cell;
    const bool inside = column >= 0.0 && row >= 0.0 && column <= static_cast<double>(columns - 1) &&
                        row <= static_cast<double>(rows - 1);
    if (!inside) {
        return std::nullopt;
    }
    const auto c = std::min(static_cast<std::size_t>(column), columns > 1 ? columns - 2 : 0);
    const auto r = std::min(static_cast<std::size_t>(row), rows > 1 ? rows - 2 : 0);
    const double u = column - static_cast<double>(c);
    const double v = row - static_cast<double>(r);
    const std::size_t right = columns > 1 ? 1 : 0;
    const std::size_t below = rows > 1 ? columns : 0;
    const std::size_t corner = r * columns + c;
    const auto cell_value = [this](std::size_t i) { return static_cast<double>(metres[i]); };
    const double north = cell_value(corner) * (1.0 - u) + cell_value(corner + right) * u;
    const double south =
        cell_value(corner + below) * (1.0 - u) + cell_value(corner + below + right) * u;
    const double height = north * (1.0 - v) + south * v;
    if (std::isnan(height)) {
        return std::nullopt;
    }
    return farwater::metres(height);
}

}  // namespace farwater
