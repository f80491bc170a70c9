// Drives from the stations to places.
#pragma once

#include <span>
#include <vector>

#include "routing/trips/approaches.h"
#include "routing/trips/station_drives.h"
#include "routing/trips/trip_search.h"

namespace farwater::routing {

// A profile's drives from all stations to a list of spots, numbered as they stand there. With
// `approaches`, whose dump sites the spots must then be, those to the approaches too, by row. One
// bounded search a station. Stopped early: not complete.
std::vector<Drive> drives_to(const RoadSystem& system, const Driving& loaded, ProfileIndex profile,
                             std::span<const RoadSpot> spots, const Approaches* approaches,
                             Pool<Desk>& desks, const Work& work);

}  // namespace farwater::routing
