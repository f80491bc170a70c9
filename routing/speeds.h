// Which road a vehicle may use, and how fast a planner lets it go there.
#pragma once

#include <cstdint>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/district/units.h"

namespace farwater::routing {

enum class Load : std::uint8_t { empty, loaded };

struct PlanningSpeed {
    Speed speed;
    bool posted = false;  // the posted limit made it, not the default of the road's class
};

// Average over a level road, not cruise: the lesser of the default (the class's; on a gravel
// surface at most that of gravel) and the posted limit; empty x empty_speed_factor; x the season's
// factor; never above the posted limit, the profile's top speed and speed_cap. Greater than 0
// unless the data hold a limit or factor that is not.
PlanningSpeed planning_speed(const Road& road, const Profile& profile, const Season& season,
                             Load load, const Assumptions& assumptions);

// Whether the road's access lets tankers and engines in at all, in this season: closed never;
// private, gated, unmaintained as the assumptions say; not when the season closes its access, and
// only when it is maintained in every month of the season.
bool open_to_apparatus(const Road& road, const Season& season, const Assumptions& assumptions);

// Open to apparatus, and no posted weight or height limit and no roadway width is less than the
// profile's. An unposted limit and an unknown width do not stop a vehicle.
bool may_use(const Road& road, const Profile& profile, const Season& season, Load load,
             const Assumptions& assumptions);

// With what climbing adds (grade.h): whole tenths of a second, rounded up, at least 1. no_time when
// the speed is not above 0 or the drive is longer than a day, which only broken data are.
DriveTime drive_time(Length length, Speed speed, Duration delay = {});

}  // namespace farwater::routing
