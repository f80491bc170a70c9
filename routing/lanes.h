// Where tankers can drive through, and where they must back or turn.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/words.h"
#include "routing/blocks.h"
#include "routing/cuts.h"
#include "routing/network.h"

namespace farwater::routing {

// The lane classes of places on the roads that are marked open. A place is `through` when on at
// least two of the ways that leave it a tanker comes, within turnaround_reach, to a road on a loop,
// so that from wherever it came it can go on and come back without backing: a bridge of the network
// (an edge whose removal parts it) is no such road, and a dead end leads to none. Directions of
// one-way roads are not looked at.
class Lanes {
public:
    // The network must outlive it. O(edges log edges).
    Lanes(const Network& network, std::vector<std::uint8_t> open_edges, Length turnaround_reach);

    // `closed`: edges besides that no tanker passes; a place inside one is a dead end. Looks only
    // at the roads within turnaround_reach.
    LaneClass at_spot(RoadSpot spot, std::span<const EdgeIndex> closed) const;

    // Whether the edge is open and on a loop that uses no closed edge.
    bool on_loop(EdgeIndex edge, std::span<const EdgeIndex> closed) const;

private:
    struct Way {
        EdgeIndex edge;
        NodeIndex to;
        double length = 0.0;  // metres to there
    };
    std::vector<Way> ways_from(RoadSpot spot) const;
    bool leads_to_loop(const Way& way, std::span<const EdgeIndex> closed) const;
    bool open(EdgeIndex edge, std::span<const EdgeIndex> closed) const;

    const Network& network_;
    std::vector<std::uint8_t> open_;
    double reach_;  // metres
    Blocks blocks_;
    Cuts cuts_;
};

}  // namespace farwater::routing
