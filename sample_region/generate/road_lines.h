// From the plan to centrelines: smoothed, noded where they cross, with addresses, bridges and rail
// crossings.
#pragma once

#include <string>
#include <vector>

#include "analyzer/district/words.h"
#include "sample_region/generate/road_plan.h"

namespace farwater::sample {

// A stretch of a centreline with something special.
struct Stretch {
    double from = 0, to = 0;  // metres along
    enum class What { bridge, rail_crossing } what = What::bridge;
};

// A centreline between two junctions (or dead ends). Coordinates are rounded to the centimetre;
// lines that meet share that point exactly.
struct RoadLine {
    Polyline line;
    int route = 0;
    OneWay one_way = OneWay::both;
    std::vector<Stretch> stretches;  // ascending, apart from each other and from the ends
    double address_start = 0;        // metres from the route's beginning, at the line's start ...
    double address_end = 0;          // ... and at its end; may be the smaller of the two
};

// Precondition: the plan's fixed places are rounded to the centimetre.
std::vector<RoadLine> draw_roads(const RoadPlan& plan, const Terrain& terrain, Point village);

}  // namespace farwater::sample
