// Roads that the data call too narrow for every vehicle.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/round_trips.h"

namespace farwater::routing {

// One road_too_narrow where any road is narrower than all profiles: how many and how long, the
// first of them, and the two widths. Many a county's data hold a width that nobody measured, which
// closes half a town. None without profiles. O(roads).
std::vector<Problem> narrow_roads(const District& district, std::span<const Profile> profiles);

}  // namespace farwater::routing
