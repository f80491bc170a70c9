// Who rolls from where at the alarm, and when the first engine is at each house.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/supply/roster.h"
#include "routing/drive_times.h"

namespace farwater::app {

// A departure's delay as drive times are counted: to the tenth of a second.
DriveTime in_drive_time(Duration duration);

// The engines that roll at the alarm, by profile; profiles without one are left out.
std::vector<routing::ProfileDepartures> engines_at_alarm(
    const District& district, std::span<const Profile> profiles,
    const std::vector<supply::Responder>& responders);

// Per parcel, then per target: when the first engine is there, by the responders of its own zone;
// zones without rules respond as "" does. What water there is does not change it.
std::vector<DriveTime> first_arrivals(const routing::RoadSystem& roads, SeasonIndex season,
                                      PeriodIndex period);

}  // namespace farwater::app
