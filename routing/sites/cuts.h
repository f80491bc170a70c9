// Which edges become bridges when some others are closed, in time that does not depend on the
// network.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "routing/network.h"

namespace farwater::routing {

// Every open edge has a 64-bit label such that the labels of edges xor to 0 exactly when the edges
// are a cut of the network (they part it, or are the union of such sets). Labels of edges outside a
// spanning forest are drawn, those inside follow; so a set of k edges that is no cut is taken for
// one with a probability of 2^-64, and an answer is wrong with at most 2^(k-64). Source: cycle
// space sampling, Pritchard and Thurimella, "Fast computation of small cuts via cycle space
// sampling", ACM Transactions on Algorithms 7 (2011); from memory.
class Cuts {
public:
    // Of the edges that are marked open; directions of one-way roads are not looked at. Always the
    // same labels for the same edges. O(nodes + edges).
    Cuts(const Network& network, std::span<const std::uint8_t> open_edges);

    // Whether the open edge is on no loop when the closed ones are taken away. O(closed^2).
    // Precondition: the edge is open and none of the closed.
    bool bridge_without(EdgeIndex edge, std::span<const EdgeIndex> closed) const;

    // Whether nothing but closed edges joins the two ends of a way. `on_way` says of each closed
    // edge whether the way goes over it; it goes over none twice. Of many closed edges (over 16) it
    // may miss that they do. O(closed^2).
    bool part(std::span<const EdgeIndex> closed, std::span<const bool> on_way) const;

private:
    std::vector<std::uint64_t> label_;  // 0 for edges that are not open
};

}  // namespace farwater::routing
