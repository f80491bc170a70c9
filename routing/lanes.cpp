#include "routing/lanes.h"

#include <algorithm>
#include <utility>

namespace farwater::routing {

Lanes::Lanes(const Network& network, std::vector<std::uint8_t> open_edges, Length turnaround_reach)
    : network_(network),
      open_(std::move(open_edges)),
      reach_(in_metres(turnaround_reach)),
      blocks_(blocks_of(network, open_)),
      cuts_(network, open_) {}

bool Lanes::open(EdgeIndex edge, std::span<const EdgeIndex> closed) const {
    return at(open_, edge) != 0 && std::ranges::find(closed, edge) == closed.end();
}

bool Lanes::on_loop(EdgeIndex edge, std::span<const EdgeIndex> closed) const {
    if (!open(edge, closed) || blocks_.of(edge) == Blocks::no_loop) {
        return false;
    }
    const bool whole = std::ranges::none_of(
        closed, [&](EdgeIndex other) { return blocks_.of(other) == blocks_.of(edge); });
    return whole || !cuts_.bridge_without(edge, closed);
}

std::vector<Lanes::Way> Lanes::ways_from(RoadSpot spot) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const double length = in_metres(edge.length());
    if (spot.along > 0.0 && spot.along < length) {
        return {{spot.edge, edge.from, spot.along}, {spot.edge, edge.to, length - spot.along}};
    }
    std::vector<Way> ways;
    for (const Incidence& incidence : network_.around(spot.along > 0.0 ? edge.to : edge.from)) {
        ways.push_back({incidence.edge, incidence.other,
                        in_metres(at(network_.edges, incidence.edge).length())});
    }
    return ways;
}

// A way that is no loop itself may end in one. Such ways are trees: no junction is met twice.
bool Lanes::leads_to_loop(const Way& way, std::span<const EdgeIndex> closed) const {
    if (!open(way.edge, closed)) {
        return false;
    }
    std::vector<Way> ahead{way};
    while (!ahead.empty()) {
        const Way next = ahead.back();
        ahead.pop_back();
        if (on_loop(next.edge, closed)) {
            return true;
        }
        if (next.length > reach_) {
            continue;
        }
        for (const Incidence& incidence : network_.around(next.to)) {
            if (incidence.edge != next.edge && open(incidence.edge, closed)) {
                const Length length = at(network_.edges, incidence.edge).length();
                ahead.push_back({incidence.edge, incidence.other, next.length + in_metres(length)});
            }
        }
    }
    return false;
}

LaneClass Lanes::at_spot(RoadSpot spot, std::span<const EdgeIndex> closed) const {
    const std::vector<Way> ways = ways_from(spot);
    const auto good =
        std::ranges::count_if(ways, [&](const Way& way) { return leads_to_loop(way, closed); });
    return good >= 2 ? LaneClass::through : LaneClass::dead_end;
}

}  // namespace farwater::routing
