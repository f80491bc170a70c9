// Drives between many places and many others.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"
#include "routing/drive_times.h"

namespace farwater::routing {

// Drives between all pairs of two lists of spots that are no longer than `limit` in at least one
// direction, by from, then to: loaded there and empty back. Spots that are not valid have none. One
// search per spot of the shorter list and direction; memory O(pairs). Stopped early: incomplete.
std::vector<DrivePair> drives_between(const RoadSystem& roads, ProfileIndex profile,
                                      SeasonIndex season, std::span<const RoadSpot> from,
                                      std::span<const RoadSpot> to, DriveTime limit,
                                      const Work& work);

}  // namespace farwater::routing
