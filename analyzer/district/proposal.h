// Places where a source of water could be made: what the officer thinks of, and water near a road.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

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

// Where a pipe could go from mapped water to a road that tankers may use.
struct RoadNearWater {
    std::uint32_t water = 0;  // of District::mapped_water
    RoadIndex road;           // not valid: none within the limit
    Point on_road;            // to the millimetre
    Point on_shore;
    Length apart;  // between them
    // Of the ground at the road, and of the water where it is lowest; none where not known.
    std::optional<Length> road_height, water_height;
    SourceIndex source_there;  // a source at that water, or at its shore; not valid: none
    // Whose ground the pipe crosses, ascending; empty: nobody's that is known.
    std::vector<ParcelIndex> ground;
    std::string owner;  // in words: who must be asked; may be empty
};

// Where nothing has to be there for a cistern but a road that tankers may use: a junction, or the
// road in front of a public parcel.
struct RoadsidePlace {
    Point place;               // on the road, to the millimetre
    ParcelIndex parcel;        // the public one; not valid: a junction
    RoadIndex road, crossing;  // the second of another name; not valid: none is
    std::uint32_t number = 0;  // among all junctions, from 1, along the network's own order
};

}  // namespace farwater
