// How much of a district has no height in its elevation data and so counts as level.
#pragma once

#include <cstddef>

namespace farwater {

struct District;

struct ElevationGaps {
    double road_share = 0.0;  // of the roads' length, 0 to 1
    std::size_t parcels = 0;  // by where the house is
    std::size_t sources = 0;

    // Less than a thousandth of the roads alone is none: they lead out of the district.
    bool matter() const { return road_share >= 0.001 || parcels > 0 || sources > 0; }
};

// None of a district without elevation. Roads are looked at every 100 ft or closer, bridges and
// tunnels at their ends. O(length of roads + parcels + sources).
ElevationGaps elevation_gaps(const District& district);

}  // namespace farwater
