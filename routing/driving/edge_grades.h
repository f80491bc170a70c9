// Grades along the roads, taken once from the elevation grid.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/parallel/work.h"
#include "routing/driving/grade.h"
#include "routing/network.h"

namespace farwater::routing {

// Grades of all edges (by road, then along it). Empty where the district has no elevation.
//
// An edge has as few equal steps as are each no longer than 100 ft or a cell of the grid, whichever
// is more. A step's grade is its rise along the true line over its length, at most 18 %.
//
// So that noise of the heights makes no false grades, the height at a point is the mean of nine: of
// the point and of its eight neighbours 30 m to the sides and corners. That leaves a plane as it
// is, rounds off humps and ditches that a truck takes in its stride, and does not depend on where
// the data cut a road into pieces. Where one of the nine is not known, the point's own height is
// taken; where that is not known, the steps on both sides have no_grade. On a bridge or in a tunnel
// the grid is some other ground: such a road rises evenly from end to end.
//
// O(length / step); 2 bytes a step. Stopped early: not complete.
Grades edge_grades(const District& district, const Network& network, const Work& work);

}  // namespace farwater::routing
