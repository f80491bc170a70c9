// Lays the roads of a township in the order in which they came about: village, state roads,
// hamlets, town roads to the neighbours, the lake, hill farms, lanes.
#pragma once

#include <string>
#include <vector>

#include "sample_region/generate/names.h"
#include "sample_region/generate/road_plan.h"
#include "sample_region/generate/village.h"

namespace farwater::sample {

struct Hamlet {
    std::string name;
    int node = 0;  // its crossroads
};

struct TownRoads {
    RoadPlan plan;
    VillageExits village;
    std::vector<Hamlet> hamlets;
    int lake_route = -1;  // the camp road
};

// The plan is connected. The state roads' numbers come from `region_seed`.
TownRoads lay_roads(const Outline& outline, const Gates& gates, const Ground& ground,
                    std::uint64_t tile_seed, Names& names);

}  // namespace farwater::sample
