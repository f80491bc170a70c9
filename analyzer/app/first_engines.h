// Who rolls from where at the alarm, and when the first engine is at each house.
#pragma once

#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/supply/roster.h"
#include "routing/drive_times.h"

namespace farwater::app {

// A departure's delay as drive times are counted: to the tenth of a second.
DriveTime in_drive_time(Duration duration);

// Engines of one profile that roll at the alarm, as departures.
std::vector<routing::Departure> departures_of(const District& district, const Profile& profile,
                                              const std::vector<supply::Responder>& responders);

// Per parcel, then per target: when the first engine is there, by the responders of its own zone;
// zones without rules respond as "" does. What water there is does not change it.
std::vector<DriveTime> first_arrivals(const routing::RoadSystem& roads, SeasonIndex season,
                                      PeriodIndex period);

}  // namespace farwater::app
