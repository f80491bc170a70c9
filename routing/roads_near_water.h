// Where roads come near mapped water: where dry hydrants could stand.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"

namespace farwater::routing {

// By mapped water, in their order, then the nearest first: from each point of its shore the nearest
// point on a road that some loaded tanker may use in some season, no bridge and no tunnel, if it is
// at most `limit` away; a water without any has one entry without a road. Shores are looked at
// every 5 m, so that `apart` is 2.5 m too long at most. The water is as low as the lowest of its
// shore and inside point in the elevation, for a raster is coarse beside a bank. `source_there` is
// the first source of the district inside it or within 200 ft of its shore. Nobody's ground is
// looked at. O(shore points); on all threads. Stopped early: not complete.
std::vector<RoadNearWater> roads_near_water(const District& district,
                                            std::span<const Profile> profiles, Length limit,
                                            const Work& work);

}  // namespace farwater::routing
