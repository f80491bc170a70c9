// Who gets to a place of the incident, and when.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "analyzer/supply/roster.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

struct Arrival {
    UnitIndex unit;
    ProfileIndex profile;
    Duration leaves;    // the station, in minutes since the alarm
    Duration at_scene;  // the place
};

// By arrival, those that come together by id, so that the order of the list's rows decides nothing.
void sort_by_arrival(const District& district, std::vector<Arrival>& arrivals);

// The drive of a profile from a station to the place; no_time where there is no way.
using DriveTo = std::function<DriveTime(ProfileIndex, StationIndex)>;

// The responders of a kind that have a way to the place, by arrival. Not more than
// most_engines or most_tankers. Those that come on request leave request_delay after the first
// engine's arrival at the house.
std::vector<Arrival> arrivals(const Situation& situation, std::span<const ProfileIndex> profile_of,
                              std::span<const Responder> responders, UnitKind kind,
                              Duration first_arrival, const DriveTo& drive_to);

// The engines, as above. Where the situation asks for one more, another like the last of them that
// is there when the flow has to begin (the first, where none is) comes with it, behind it, even
// beyond most_engines: the same unit stands in the list twice.
std::vector<Arrival> engines_at(const Situation& situation,
                                std::span<const ProfileIndex> profile_of,
                                std::span<const Responder> responders, Duration first_arrival,
                                const DriveTo& drive_to);

}  // namespace farwater::supply
