// Spots on the roads as one meets them who goes on from a place.
#pragma once

#include <span>
#include <vector>

#include "routing/network.h"

namespace farwater::routing {

// A stretch of an edge that leads on from a place, up to the junction at its end.
struct WayOn {
    EdgeIndex edge;
    NodeIndex to;
    bool as_drawn = true;
    double entered = 0.0;  // metres along the edge, where it is entered
    double before = 0.0;   // metres from the place to there
    double length = 0.0;   // metres from the place to `to`
};

// The ways that leave a spot: two from inside an edge, else one per edge at the junction.
std::vector<WayOn> ways_from(const Network& network, RoadSpot spot);
// On from the end of a way. Precondition: `next` is around its `to`.
WayOn onward(const Network& network, const WayOn& way, const Incidence& next);

class Waymarks {
public:
    // The network must outlive it. Spots that are not valid are left out. O(spots log spots).
    Waymarks(const Network& network, std::span<const RoadSpot> spots);

    // Whether one of them lies on the way from where it is entered, or at its end, at most
    // `farthest` metres from the place. O(log spots + those on the edge).
    bool on(const WayOn& way, double farthest) const;

    // Whether one of them is there, within a metre along the edge.
    bool at(RoadSpot spot) const;

private:
    const Network* network_;
    std::vector<RoadSpot> inside_;      // edges, by edge
    std::vector<NodeIndex> junctions_;  // ascending
};

}  // namespace farwater::routing
