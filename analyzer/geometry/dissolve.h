// Areas that grow together: the union of many, and which of many lie near each other (GEOS).
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/units.h"
#include "analyzer/geometry/footprints.h"

namespace farwater {

// Vertices of a union lie on a grid this fine: hairlines between neighbours' borders close.
inline constexpr double dissolve_grid_m = 0.1;

// The ground that any of `which` covers, valid, its parts by their westernmost, then southernmost
// corner. In normal form: a shell turns right, a hole left, and each begins at its westernmost,
// then southernmost corner. Empty where nothing with an area is left. Shapes that are not valid are
// repaired first. O(vertices log vertices).
MultiPolygon dissolved(const Footprints& shapes, std::span<const std::uint32_t> which);

// Number of the group of each of `which`, from 0 in the order of their first members: two shapes
// are of one group when a chain of shapes leads from one to the other with no gap wider than
// `reach`. O(n log n + neighbours).
std::vector<std::uint32_t> groups_within(const Footprints& shapes,
                                         std::span<const std::uint32_t> which, Length reach);

// The shape that these rings make, as a record of a layer lists them: a ring inside the shell
// before it is a hole of that shell. Rings of fewer than four vertices are left out.
MultiPolygon shape_of_rings(std::span<const Polyline> rings);

}  // namespace farwater
