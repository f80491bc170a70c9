// The plain twin of separations between buildings: every corner and wall against every other.
#pragma once

#include <vector>

#include "analyzer/district/building.h"
#include "analyzer/district/plane.h"

namespace farwater::support {

// A building of one closed ring; a single vertex is a point building.
struct PlainBuilding {
    Polyline ring;
    double area_m2 = 0.0;
};

Separation slow_separation(const std::vector<PlainBuilding>& buildings, std::size_t which,
                           double reach_m, double large_m2);

}  // namespace farwater::support
