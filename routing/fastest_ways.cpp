#include "routing/fastest_ways.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace farwater::routing {
namespace {

constexpr std::int64_t endless = std::numeric_limits<std::int64_t>::max();

std::uint32_t number(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

double length_of(const Network& network, EdgeIndex edge) {
    return in_metres(at(network.edges, edge).length());
}

Heading opposite(Heading heading) {
    return heading == Heading::away ? Heading::towards : Heading::away;
}

}  // namespace

std::int32_t cost_of(const Network& network, const EdgeCosts& costs, Stretch stretch) {
    return part_of(costs.of(stretch.edge, stretch.from <= stretch.to),
                   std::abs(stretch.to - stretch.from), length_of(network, stretch.edge));
}

FastestWays::FastestWays(const Network& network)
    : network_(network), search_(network.nodes.size()), length_(network.nodes.size(), -1) {}

std::int64_t FastestWays::edge_length(EdgeIndex edge) const {
    return millimetres(at(network_.edges, edge).length());
}

// `near` is the end that the searched spot is at, `far` the other.
Stretch FastestWays::driven(EdgeIndex edge, double near, double far) const {
    return away() ? Stretch{edge, near, far} : Stretch{edge, far, near};
}

FastestWays::Piece FastestWays::end_piece(RoadSpot spot, bool at_from, Heading heading) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const EndCosts costs = end_costs(network_, roads_->costs, spot, heading);
    const double length = in_metres(edge.length());
    const double end = at_from ? 0.0 : length;
    const std::int32_t whole = millimetres(edge.length());
    const Stretch stretch = heading == Heading::away ? Stretch{spot.edge, spot.along, end}
                                                     : Stretch{spot.edge, end, spot.along};
    return {at_from ? costs.from_end : costs.to_end,
            part_of(whole, std::abs(spot.along - end), length),
            number(at_from ? edge.from : edge.to), stretch};
}

FastestWays::Piece FastestWays::along_piece(RoadSpot other) const {
    Piece piece;
    if (other.edge == spot_.edge) {
        piece.stretch = driven(other.edge, spot_.along, other.along);
        const RoadSpot from{other.edge, piece.stretch.from};
        piece.time = cost_along(network_, roads_->costs, from, {other.edge, piece.stretch.to});
        piece.millimetres =
            part_of(static_cast<std::int32_t>(edge_length(other.edge)),
                    std::abs(other.along - spot_.along), length_of(network_, other.edge));
    }
    return piece;
}

void FastestWays::search(const DrivenRoads& roads, RoadSpot spot, std::int32_t limit) {
    search_.clear();
    for (const std::uint32_t node : worked_out_) {
        length_[node] = -1;
    }
    worked_out_.clear();
    roads_.emplace(roads);
    spot_ = spot;
    limit_ = limit;
    for (const bool at_from : {true, false}) {
        Piece& start = starts_[at_from ? 0 : 1];
        start = end_piece(spot, at_from, roads.heading);
        search_.start(start.node, start.time);
    }
    search_.run(roads.graph, limit);
}

// Whether the incidence leads from the node back to the start on a fastest way.
bool FastestWays::on_fastest(std::uint32_t node, const Incidence& incidence) const {
    const std::int32_t before = search_.cost(number(incidence.other));
    const std::int32_t cost = roads_->costs.of(incidence.edge, incidence.forward != away());
    return before != no_way && cost != no_way && before + cost == search_.cost(node);
}

// Where a fastest way to the node can begin at once, the shorter of two.
const FastestWays::Piece* FastestWays::start_at(std::uint32_t node) const {
    const Piece* best = nullptr;
    for (const Piece& start : starts_) {
        const bool here = start.node == node && start.time == search_.cost(node);
        if (here && (best == nullptr || start.millimetres < best->millimetres)) {
            best = &start;
        }
    }
    return best;
}

// Works out the node's length if those before it are known; else puts them before it.
void FastestWays::settle(std::uint32_t node) {
    const Piece* start = start_at(node);
    std::int64_t best = start == nullptr ? endless : start->millimetres;
    bool ready = true;
    for (const Incidence& incidence : network_.around(NodeIndex(node))) {
        if (!on_fastest(node, incidence)) {
            continue;
        }
        const std::int64_t before = length_[incidence.other.position()];
        if (before < 0) {
            pending_.push_back(number(incidence.other));
            ready = false;
        } else {
            best = std::min(best, before + edge_length(incidence.edge));
        }
    }
    if (ready) {
        length_[node] = best;
        worked_out_.push_back(node);
    }
}

// Every step back costs at least a tenth of a second, so this ends.
std::int64_t FastestWays::length_at(std::uint32_t node) {
    pending_.assign(1, node);
    while (!pending_.empty()) {
        const std::uint32_t next = pending_.back();
        if (length_[next] >= 0) {
            pending_.pop_back();
        } else {
            settle(next);
        }
    }
    return length_[node];
}

// The best of going straight along one edge and of coming by either end, with the measure of the
// whole way. None where there is no way within the limit.
std::optional<FastestWays::Piece> FastestWays::last_piece(RoadSpot other) {
    Piece best = along_piece(other);
    for (const bool at_from : {true, false}) {
        Piece piece = end_piece(other, at_from, opposite(roads_->heading));
        const std::int32_t before = search_.cost(piece.node);
        piece.time = plus(before, piece.time);
        if (piece.time == no_way || piece.time > limit_ || piece.time > best.time) {
            continue;
        }
        piece.millimetres += length_at(piece.node);
        if (std::tie(piece.time, piece.millimetres) < std::tie(best.time, best.millimetres)) {
            best = piece;
        }
    }
    return best.time <= limit_ ? std::optional(best) : std::nullopt;
}

WayMeasure FastestWays::measure(RoadSpot other) {
    const std::optional<Piece> last = last_piece(other);
    return last ? WayMeasure{last->time, last->millimetres} : WayMeasure{};
}

void FastestWays::walk_back(std::uint32_t node, Way& way) {
    while (true) {
        const std::int64_t length = length_at(node);
        const Piece* start = start_at(node);
        if (start != nullptr && start->millimetres == length) {
            way.push_back(start->stretch);
            return;
        }
        const std::span<const Incidence> around = network_.around(NodeIndex(node));
        const auto step = std::ranges::find_if(around, [&](const Incidence& incidence) {
            return on_fastest(node, incidence) &&
                   length_at(number(incidence.other)) + edge_length(incidence.edge) == length;
        });
        const double whole = length_of(network_, step->edge);
        const bool as_drawn = step->forward != away();
        way.push_back({step->edge, as_drawn ? 0.0 : whole, as_drawn ? whole : 0.0});
        node = number(step->other);
    }
}

std::optional<Way> FastestWays::way(RoadSpot other) {
    const std::optional<Piece> last = last_piece(other);
    if (!last) {
        return std::nullopt;
    }
    Way way{last->stretch};
    if (last->node != Piece::straight) {
        walk_back(last->node, way);
    }
    if (away()) {
        std::ranges::reverse(way);
    }
    std::erase_if(way, [](const Stretch& stretch) { return stretch.from == stretch.to; });
    return way;
}

}  // namespace farwater::routing
