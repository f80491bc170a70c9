// Order along a Hilbert curve: what is near in the plane is mostly near in the list.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater::routing {

// Position of a cell on the curve that fills 65,536 x 65,536 cells. The curve is Hilbert's (1891);
// the conversion by quadrants is the usual one.
std::uint32_t hilbert_key(std::uint16_t x, std::uint16_t y);

// Positions in `points` along the curve over their box; points in one cell by x, then y, then
// position. The points in another order give the same sequence of points. O(n), some 60 nanoseconds
// a point, while few lie in one cell.
std::vector<std::uint32_t> spatial_order(std::span<const Point> points);

}  // namespace farwater::routing
