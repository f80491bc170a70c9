// Where tankers can drive through, and where they must back or turn.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/words.h"
#include "routing/network.h"

namespace farwater::routing {

// Of the marked edges, those on which a tanker can drive on and come back another way or round a
// loop: 1 there, 0 on spurs. A spur is what a dead end cuts off: an edge whose removal leaves a
// side without any loop. Found by taking dead ends away until there are none; directions of one-way
// roads are not looked at. O(edges).
std::vector<std::uint8_t> through_edges(const Network& network,
                                        std::span<const std::uint8_t> marked_edges);

// Of the spot's edge; at a junction the best of the edges that meet there.
LaneClass lane_at(const Network& network, std::span<const std::uint8_t> through, RoadSpot spot);

}  // namespace farwater::routing
