// Drives from stations while they come in, put together as lists by place.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/round_trips.h"

namespace farwater::routing {

// One profile's drive from a station to a place (dump site or fill site, by number).
struct Drive {
    std::uint32_t place = 0;
    StationIndex station;
    ProfileIndex profile;
    DriveTime time = no_time;
};

// Per place: its stations by index. The order of `drives` does not matter. O(n log n).
Lists<StationDrive> by_place(std::vector<Drive> drives, std::size_t places);

}  // namespace farwater::routing
