// One search from many starts: when (or after how many metres) each place is reached first.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"

namespace farwater::routing {

struct Start {
    RoadSpot spot;
    std::int32_t cost = 0;
};

class Arrivals {
public:
    // Everything at most `limit` away; starts without a spot or with no_way are left out. The
    // network and costs must outlive it. O(nodes reached x log).
    Arrivals(const Network& network, const EdgeCosts& costs, std::vector<Start> starts,
             std::int32_t limit);

    std::int32_t at_node(NodeIndex node) const;
    std::int32_t at_spot(RoadSpot spot) const;  // no_way where nothing comes

    const Network& network() const { return network_; }
    const EdgeCosts& costs() const { return costs_; }

private:
    const Network& network_;
    const EdgeCosts& costs_;
    std::vector<Start> starts_;  // by edge
    Search search_;
};

// The nearest junction that is reached, along roads that may not be driven: where an engine stops
// when the house lies on such a road.
class Gates {
public:
    // To at most `limit` millimetres from the junctions. The arrivals must outlive it.
    Gates(const Arrivals& arrivals, std::int32_t limit);

    struct Gate {
        NodeIndex node;
        std::int32_t along = 0;  // millimetres from there to the spot
    };
    // None on roads that may be driven, and where no such junction is near.
    std::optional<Gate> gate_of(RoadSpot spot) const;

private:
    const Arrivals& arrivals_;
    EdgeCosts lengths_;
    Search search_;
    std::vector<std::uint32_t> origin_;  // per node reached: the junction that it is reached from
};

}  // namespace farwater::routing
