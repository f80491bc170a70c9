// How much of a straight line lies on some ground.
#pragma once

#include "analyzer/geometry/polygon.h"

namespace farwater {

// Metres of the way from `a` to `b` that lie inside, a border counting as neither. 0 where a = b.
// O(vertices x crossings).
double metres_on_ground(const MultiPolygon& ground, Point a, Point b);

}  // namespace farwater
