// What the ways of the shuttles say about an answer.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/district/units.h"
#include "io/feature_table.h"
#include "reports/findings.h"

namespace farwater::reports {

// Of the first tanker's round trip.
struct RoundTripWays {
    DriveTime time{};
    DriveTime on_defaults{};
    Length length;
};

// None where the parcel or target has no shuttle.
std::optional<RoundTripWays> round_trip_ways(const Findings& findings, std::size_t row);

// The routes that have a line, as the layer shuttle_routes lists them: indices into `routes`.
std::vector<std::uint32_t> drawn_routes(const RoutesInUse& routes);

// Of its shuttle; null where it has none.
const LoopDetour* loop_at(const Findings& findings, std::size_t row);
// Empty where it is not known, minutes and miles also where there is no loop.
io::Value value_of_loop(const LoopDetour* loop);
io::Value minutes_of_loop(const LoopDetour* loop);
io::Value miles_of_loop(const LoopDetour* loop);

// Whole per cent, rounded up, so that 0 means none at all; none where nothing is driven.
std::optional<int> default_speed_percent(DriveTime on_defaults, DriveTime time);

}  // namespace farwater::reports
