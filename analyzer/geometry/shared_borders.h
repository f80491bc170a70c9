// Shapes that lie side by side without their borders to each other.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "analyzer/geometry/footprints.h"

namespace farwater {

// The shapes' rings on a grid of `grid_m`, without the sides that two shapes share: each ring is
// what is left round ground (turning right) or round a hole in it (turning left). Where that is
// valid (is_valid), it is the ground that the shapes cover: how often rings wind round a place adds
// up, and what is valid winds round none twice, so that no ground lies under two shapes. Where
// corners lie on a neighbour's side or shapes overlap, it is not valid, or none comes back. None
// also for coordinates beyond a billion steps of the grid. Precondition: the shapes are valid.
// O(vertices log vertices), and for each hole the vertices of those parts in whose box it lies.
std::optional<MultiPolygon> without_shared_borders(const Footprints& shapes,
                                                   std::span<const std::uint32_t> which,
                                                   double grid_m);

}  // namespace farwater
