// Which edges lie on a loop of the road network.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "routing/network.h"

namespace farwater::routing {

// Two edges are in one block when some loop that meets no junction twice uses both.
struct Blocks {
    static constexpr std::uint32_t no_loop = UINT32_MAX;

    std::vector<std::uint32_t> of_edge;  // no_loop: a bridge of the network, or not open

    std::uint32_t of(EdgeIndex edge) const { return of_edge[edge.position()]; }
};

// Of the edges that are marked open; directions of one-way roads are not looked at. Two edges
// between the same junctions are a loop, and so is an edge that comes back to its own junction.
// Biconnected components (Hopcroft and Tarjan 1973). O(edges log edges).
Blocks blocks_of(const Network& network, std::span<const std::uint8_t> open_edges);

}  // namespace farwater::routing
