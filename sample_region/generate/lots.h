// Where lots are wanted: sites along both sides of every road, back land between, water.
#pragma once

#include <cstdint>
#include <vector>

#include "sample_region/generate/road_lines.h"
#include "sample_region/generate/shapes.h"
#include "sample_region/generate/terrain.h"

namespace farwater::sample {

enum class LotKind { village, hamlet, camp, roadside, farm, back };

struct Lot {
    LotKind kind = LotKind::back;
    std::int32_t road = -1;   // index of its road line; -1 for back land
    bool on_left = false;     // of the road line
    double from = 0, to = 0;  // metres along the road line
    int columns = 0;          // sites side by side along the road
};

// What a site is part of: a lot's index, or one of these.
inline constexpr std::int32_t outside = -1;  // beyond the township's edge
inline constexpr std::int32_t lake = -2;
inline constexpr std::int32_t undecided = -3;  // joins a neighbour

struct Site {
    Point place;
    std::int32_t lot = undecided;
    double station = 0;     // metres along the lot's road line
    bool in_front = false;  // in the first row along the road
};

struct LotPlan {
    std::vector<Lot> lots;
    std::vector<Site> sites;  // the sites outside are last, each the mirror image of one inside
};

struct LotInput {
    const Outline& outline;
    const Ground& ground;
    const std::vector<RoadLine>& roads;
    const std::vector<Route>& routes;
    const std::vector<Point>& hamlets;  // their middles
    int lake_route = -1;
};

// Sites of the two sides of a road mirror each other, so that lots meet on the centreline.
LotPlan plan_lots(const LotInput& input, std::uint64_t tile_seed);

}  // namespace farwater::sample
