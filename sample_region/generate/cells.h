// The plane cut into one cell per site (Voronoi), as a graph of corners and sides that neighbours
// share. Parcels are groups of cells, so they tile the land by construction.
#pragma once

#include <cstdint>
#include <vector>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

// A side between two cells, walked from `from` to `to` with the cell of site `left` on the left.
struct CellSide {
    std::int32_t left = 0, right = 0;  // sites
    std::int32_t from = 0, to = 0;     // corners
};

struct Cells {
    Polyline corners;             // rounded to the centimetre, all different
    std::vector<CellSide> sides;  // each once; sides that reach infinity are left out
};

// Precondition: sites are rounded to the centimetre, all different, within 10 km of `origin`, which
// is a whole number of centimetres. O(n log n).
Cells cut_into_cells(const std::vector<Point>& sites, Point origin);

// One number per site: the area of its cell in square metres (wrong for cells that reach infinity).
std::vector<double> cell_areas(const Cells& cells, const std::vector<Point>& sites);

// The outlines of groups of cells. `group_of` gives one number per site; groups below 0 get no
// polygon, others index the result. Corners between the same two groups that lie within `tolerance`
// metres of the straight line are dropped, for both groups alike. Empty for a group without cells.
std::vector<Polygons> dissolved(const Cells& cells, const std::vector<std::int32_t>& group_of,
                                std::size_t groups, double tolerance);

}  // namespace farwater::sample
