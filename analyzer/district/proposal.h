// Places where a source of water could be made: what the officer thinks of, and water near a road.
#pragma once

#include <cstdint>
#include <optional>

#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"
#include "analyzer/district/water.h"

namespace farwater {

// One of the officer's own: the source as it would be built, and what that costs. It counts nowhere
// but where it is asked what it would change.
struct ProposedSource {
    WaterSource source;
    std::optional<double> cost;  // in the user's money; none = not known
};

// Where a road that tankers may use comes nearest to mapped water.
struct RoadNearWater {
    std::uint32_t water = 0;  // of District::mapped_water
    RoadIndex road;           // not valid: none within the limit
    Point on_road;            // to the millimetre
    Length apart;             // from there to the shore
    // Of the ground at the road, and of the water where it is lowest; none where not known.
    std::optional<Length> road_height, water_height;
    SourceIndex source_there;  // a source at that water, or at its shore; not valid: none
};

}  // namespace farwater
