// What the slow twin says, in the terms of routing.
#pragma once

#include "analyzer/district/district.h"
#include "routing/network.h"
#include "tests/support/slow_routes.h"

namespace farwater::test {

inline slow::Spot slow_spot(const slow::Streets& streets, const routing::Network& network,
                            routing::RoadSpot spot) {
    const routing::Edge& edge = at(network.edges, spot.edge);
    return slow::spot_on(streets, edge.road.position(), edge.begin + spot.along);
}

inline long cost_of(DriveTime time) { return reachable(time) ? in_tenths(time) : slow::never; }

// A way longer than the limit counts as none.
inline long within(long cost, const District& district) {
    return static_cast<double>(cost) <= in_minutes(district.assumptions.trip_limit) * 600.0
               ? cost
               : slow::never;
}

}  // namespace farwater::test
