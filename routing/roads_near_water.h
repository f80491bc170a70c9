// Where a road comes nearest to each mapped water: where a dry hydrant could stand.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"

namespace farwater::routing {

// One per mapped water, in their order: the point nearest to its shore on a road that some loaded
// tanker may use in some season, no bridge and no tunnel, if it is at most `limit` away. Shores are
// looked at every 5 m, so that `apart` is 2.5 m too long at most. The water is as low as the
// lowest of its shore and inside point in the elevation, for a raster is coarse beside a bank.
// `source_there` is the first source of the district inside it or within 200 ft of its shore.
// O(shore points); on all threads. Stopped early: not complete.
std::vector<RoadNearWater> roads_near_water(const District& district,
                                            std::span<const Profile> profiles, Length limit,
                                            const Work& work);

}  // namespace farwater::routing
