// Where tankers can drive through, and where they must back or turn.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/words.h"
#include "routing/network.h"
#include "routing/search/waymarks.h"
#include "routing/sites/blocks.h"
#include "routing/sites/cuts.h"

namespace farwater::routing {

// The lane classes of places on the roads that are marked open. A way that leaves the place is good
// when a tanker on it comes, within turnaround_reach, to a turnaround or to a road on a loop, so
// that it can come back without backing: a bridge of the network (an edge whose removal parts it)
// is no such road, and a dead end leads to none. The place is `through`
// - when at least two of its ways are good: from wherever a tanker came it can go on and come back;
// - when one is good, and no tanker can come by that one: all junctions behind it are within
//   turnaround_reach, and no origin of tankers is there;
// - when a turnaround is right there (within a metre), even if its road is closed.
// Directions of one-way roads are not looked at.
class Lanes {
public:
    // The network must outlive it. O(edges log edges).
    Lanes(const Network& network, std::vector<std::uint8_t> open_edges, Length turnaround_reach,
          std::span<const RoadSpot> turnarounds = {});

    // `closed`: edges besides that no tanker passes; a place inside one is a dead end. `origins`:
    // where tankers come from; null = anywhere. Looks only at the roads within turnaround_reach.
    LaneClass at_spot(RoadSpot spot, std::span<const EdgeIndex> closed,
                      const Waymarks* origins = nullptr) const;

    // Whether at least two of its ways lead, within turnaround_reach, to a road on a loop: tankers
    // can all drive one way round, and none meets another. Turnarounds do not count, for who turns
    // comes back.
    bool goes_round(RoadSpot spot, std::span<const EdgeIndex> closed) const;

    // Whether the edge is open and on a loop that uses no closed edge.
    bool on_loop(EdgeIndex edge, std::span<const EdgeIndex> closed) const;

private:
    std::vector<WayOn> ways_after(const WayOn& way, std::span<const EdgeIndex> closed) const;
    bool is_good(const WayOn& way, std::span<const EdgeIndex> closed, bool may_turn = true) const;
    bool nobody_comes_by(const WayOn& way, RoadSpot spot, std::span<const EdgeIndex> closed,
                         const Waymarks& origins) const;
    bool open(EdgeIndex edge, std::span<const EdgeIndex> closed) const;

    const Network& network_;
    std::vector<std::uint8_t> open_;
    double reach_;  // metres
    Blocks blocks_;
    Cuts cuts_;
    Waymarks turnarounds_;
};

}  // namespace farwater::routing
