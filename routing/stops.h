// Where a vehicle stops for places that are no part of the district: camps, neighbours' ponds.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/network.h"

namespace farwater::routing {

// Per place: the nearest spot within access_reach, straight, on a road that the profile may use
// loaded in the season; of roads equally near the one open both ways, then the better class. Not
// valid where there is none. About 1 microsecond a place, on all threads.
std::vector<RoadSpot> stops_near(const District& district, const Network& network,
                                 std::span<const Point> places, const Profile& profile,
                                 const Season& season, const Work& work);

}  // namespace farwater::routing
