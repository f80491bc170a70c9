// Spots by the junctions from which they are reached, so that a search over junctions finds them.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"

namespace farwater::routing {

// One way between a junction and a spot on one of its edges.
struct SpotEnd {
    std::uint32_t spot = 0;
    std::int32_t to_spot = no_way;
    std::int32_t from_spot = no_way;
};

struct SpotEnds {
    std::vector<std::uint32_t> first;  // per node, and one more
    std::vector<SpotEnd> ends;         // by node, then by spot

    std::span<const SpotEnd> around(NodeIndex node) const {
        return std::span(ends).subspan(first[node.position()],
                                       first[node.position() + 1] - first[node.position()]);
    }
};

// Each valid spot stands at both ends of its edge. O(nodes + spots).
SpotEnds spot_ends(const Network& network, std::span<const RoadSpot> spots,
                   const EdgeCosts& to_spot, const EdgeCosts& from_spot);

}  // namespace farwater::routing
