#include "routing/sites/lanes.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <utility>

namespace farwater::routing {
namespace {

constexpr double anywhere = std::numeric_limits<double>::infinity();

}  // namespace

Lanes::Lanes(const Network& network, std::vector<std::uint8_t> open_edges, Length turnaround_reach,
             std::span<const RoadSpot> turnarounds)
    : network_(network),
      open_(std::move(open_edges)),
      reach_(in_metres(turnaround_reach)),
      blocks_(blocks_of(network, open_)),
      cuts_(network, open_),
      turnarounds_(network, turnarounds) {}

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

// A way that is no loop itself may end in one. Such ways are trees: no junction is met twice.
bool Lanes::is_good(const WayOn& way, std::span<const EdgeIndex> closed, bool may_turn) const {
    if (!open(way.edge, closed)) {
        return false;
    }
    std::vector<WayOn> ahead{way};
    while (!ahead.empty()) {
        const WayOn next = ahead.back();
        ahead.pop_back();
        if (on_loop(next.edge, closed) || (may_turn && turnarounds_.on(next, reach_))) {
            return true;
        }
        if (next.length > reach_) {
            continue;
        }
        const std::vector<WayOn> more = ways_after(next, closed);
        ahead.insert(ahead.end(), more.begin(), more.end());
    }
    return false;
}

std::vector<WayOn> Lanes::ways_after(const WayOn& way, std::span<const EdgeIndex> closed) const {
    std::vector<WayOn> ways;
    for (const Incidence& incidence : network_.around(way.to)) {
        if (incidence.edge != way.edge && open(incidence.edge, closed)) {
            ways.push_back(onward(network_, way, incidence));
        }
    }
    return ways;
}

// Goes to the nearest junctions behind the way first, so that each is met by its shortest way.
bool Lanes::nobody_comes_by(const WayOn& way, RoadSpot spot, std::span<const EdgeIndex> closed,
                            const Waymarks& origins) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const bool inside = spot.along > 0.0 && spot.along < in_metres(edge.length());
    const NodeIndex place = spot.along > 0.0 ? edge.to : edge.from;  // where it is not inside
    const auto is_back = [&](const WayOn& next) {
        return inside ? next.edge == spot.edge && next.before > 0.0 : next.to == place;
    };
    std::vector<WayOn> ahead{way};
    std::vector<NodeIndex> met;
    while (!ahead.empty()) {
        const auto nearest = std::ranges::min_element(ahead, {}, &WayOn::length);
        const WayOn next = *nearest;
        ahead.erase(nearest);
        if (is_back(next) || origins.on(next, anywhere)) {
            return false;
        }
        if (std::ranges::find(met, next.to) == met.end()) {
            if (next.length > reach_) {
                return false;
            }
            met.push_back(next.to);
            const std::vector<WayOn> more = ways_after(next, closed);
            ahead.insert(ahead.end(), more.begin(), more.end());
        }
    }
    return true;
}

LaneClass Lanes::at_spot(RoadSpot spot, std::span<const EdgeIndex> closed,
                         const Waymarks* origins) const {
    const std::vector<WayOn> ways = ways_from(network_, spot);
    std::vector<WayOn> good;
    std::ranges::copy_if(ways, std::back_inserter(good),
                         [&](const WayOn& way) { return is_good(way, closed); });
    const bool through = turnarounds_.at(spot) || good.size() >= 2 ||
                         (good.size() == 1 && origins != nullptr &&
                          nobody_comes_by(good.front(), spot, closed, *origins));
    return through ? LaneClass::through : LaneClass::dead_end;
}

bool Lanes::goes_round(RoadSpot spot, std::span<const EdgeIndex> closed) const {
    const std::vector<WayOn> ways = ways_from(network_, spot);
    return std::ranges::count_if(
               ways, [&](const WayOn& way) { return is_good(way, closed, false); }) >= 2;
}

}  // namespace farwater::routing
