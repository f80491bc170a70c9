// The village: a fixed pattern of streets, turned along the river and shaken a little.
#pragma once

#include "sample_region/generate/road_plan.h"

namespace farwater::sample {

struct VillageExits {
    int centre = 0;
    int west = 0, east = 0, north = 0, south = 0;
    int main_street = 0;   // its route
    int north_street = 0;  // its route
};

// True within the village's streets and lots.
bool in_village(const VillageFrame& frame, Point p);

// Lays streets and closes the ground to other roads; they come in by the four exits.
VillageExits lay_village(RoadPlan& plan, const VillageFrame& frame, std::uint64_t tile_seed);

}  // namespace farwater::sample
