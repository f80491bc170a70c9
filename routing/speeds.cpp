#include "routing/speeds.h"

#include <algorithm>
#include <cmath>

namespace farwater::routing {
namespace {

Speed class_speed(RoadClass kind, const Assumptions& assumptions) {
    switch (kind) {
        case RoadClass::state:
            return assumptions.speed_state;
        case RoadClass::paved:
            return assumptions.speed_paved;
        case RoadClass::paved_lane:
            return assumptions.speed_paved_lane;
        case RoadClass::gravel:
            return assumptions.speed_gravel;
        case RoadClass::narrow:
            return assumptions.speed_narrow;
        case RoadClass::drive:
            return assumptions.speed_drive;
    }
    return assumptions.speed_narrow;
}

bool access_allowed(RoadAccess access, const Assumptions& assumptions) {
    switch (access) {
        case RoadAccess::open:
            return true;
        case RoadAccess::private_road:
            return assumptions.private_roads_usable;
        case RoadAccess::gated:
            return assumptions.gated_roads_usable;
        case RoadAccess::unmaintained:
            return assumptions.unmaintained_roads_usable;
        case RoadAccess::closed:
            return false;
    }
    return false;
}

// A limit that is not posted stops nobody.
template <class Measure>
bool within(const Maybe<Measure>& limit, Measure vehicle) {
    return !limit || vehicle <= *limit;
}

}  // namespace

PlanningSpeed planning_speed(const Road& road, const Profile& profile, const Season& season,
                             Load load, const Assumptions& assumptions) {
    const Speed standard =
        road.surface == Surface::gravel
            ? std::min(class_speed(road.kind, assumptions), assumptions.speed_gravel)
            : class_speed(road.kind, assumptions);
    const Speed posted = road.posted_speed.value_or(standard);
    const double factor =
        season.speed_factor * (load == Load::empty ? assumptions.empty_speed_factor : 1.0);
    Speed speed = std::min(standard, posted) * factor;
    if (road.posted_speed) {
        speed = std::min(speed, posted);
    }
    speed = std::min({speed, profile.top_speed, assumptions.speed_cap});
    return {speed, road.posted_speed && posted <= standard};
}

bool open_to_apparatus(const Road& road, const Season& season, const Assumptions& assumptions) {
    const auto& closed = season.closed_access;
    return access_allowed(road.access, assumptions) &&
           std::ranges::find(closed, road.access) == closed.end() &&
           road.maintained.covers(season.months);
}

bool may_use(const Road& road, const Profile& profile, const Season& season, Load load,
             const Assumptions& assumptions) {
    const Weight weight = load == Load::loaded ? profile.loaded : profile.empty;
    return open_to_apparatus(road, season, assumptions) && within(road.weight_limit, weight) &&
           within(road.height_limit, profile.height.value_or(feet(0))) &&
           within(road.width, profile.width.value_or(feet(0)));
}

DriveTime drive_time(Length length, Speed speed, Duration delay) {
    constexpr double day = 864'000.0;
    if (!(speed > mph(0))) {
        return no_time;
    }
    // Less a hair, so that a binary fraction does not make 600.0000000001 tenths 601.
    const double tenths = std::ceil(in_minutes(length / speed + delay) * 600.0 - 1e-7);
    return tenths <= day ? tenths_of_second(static_cast<std::int32_t>(std::max(tenths, 1.0)))
                         : no_time;
}

}  // namespace farwater::routing
