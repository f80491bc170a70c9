#include "routing/fastest_ways.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

#include "analyzer/district/sorted_once.h"

namespace farwater::routing {
namespace {

std::uint32_t number_of(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

double length_of(const Network& network, EdgeIndex edge) {
    return in_metres(at(network.edges, edge).length());
}

Heading opposite(Heading heading) {
    return heading == Heading::away ? Heading::towards : Heading::away;
}

}  // namespace

FastestWays::FastestWays(const Network& network)
    : network_(network), search_(network.nodes.size()), back_(network.nodes.size()) {}

std::int64_t FastestWays::edge_length(EdgeIndex edge) const {
    return millimetres(at(network_.edges, edge).length());
}

RoadMarks FastestWays::marks_of(EdgeIndex edge) const {
    return marks_ == nullptr ? RoadMarks{} : (*marks_)(at(network_.edges, edge).road);
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
            number_of(at_from ? edge.from : edge.to), stretch};
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

void FastestWays::search(const DrivenRoads& roads, RoadSpot spot, std::int32_t limit,
                         const MarksOfRoad* marks) {
    search_.clear();
    for (const std::uint32_t node : worked_out_) {
        back_[node].millimetres = -1;
    }
    worked_out_.clear();
    roads_.emplace(roads);
    marks_ = marks;
    spot_ = spot;
    limit_ = limit;
    starts_ = {end_piece(spot, true, roads.heading), end_piece(spot, false, roads.heading)};
    for (const Piece& start : starts_) {
        search_.start(start.node, start.time);
    }
    search_.run(roads.graph, limit);
}

// Whether the incidence leads from the node back to the searched spot on a fastest way.
bool FastestWays::on_fastest(std::uint32_t node, const Incidence& incidence) const {
    const std::int32_t before = search_.cost(number_of(incidence.other));
    const std::int32_t cost = roads_->costs.of(incidence.edge, incidence.forward != away());
    return before != no_way && cost != no_way && before + cost == search_.cost(node);
}

void FastestWays::keep(std::uint32_t node, std::uint32_t incidence, std::int64_t length) {
    Back back{length, 0, incidence, UINT32_MAX};
    const bool starts = incidence >= begins;
    const EdgeIndex edge = starts ? spot_.edge : network_.incidences[incidence].edge;
    std::int32_t time = search_.cost(node);
    if (!starts) {
        const std::uint32_t before = number_of(network_.incidences[incidence].other);
        back.counted = back_[before].counted;
        back.listed = back_[before].listed;
        time -= search_.cost(before);
    }
    const RoadMarks marks = time > 0 ? marks_of(edge) : RoadMarks{};
    back.counted += marks.counts ? time : 0;
    back.listed = marks.listed ? node : back.listed;
    back_[node] = back;
    worked_out_.push_back(node);
}

// Works out the way back from the node if those before it are known; else puts them before it.
void FastestWays::settle(std::uint32_t node) {
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    std::uint32_t best = 0;
    for (std::uint32_t i = 0; i < starts_.size(); ++i) {
        const bool here = starts_[i].node == node && starts_[i].time == search_.cost(node);
        if (here && starts_[i].millimetres < least) {
            least = starts_[i].millimetres;
            best = begins + i;
        }
    }
    bool ready = true;
    for (std::uint32_t i = network_.first_incidence[node]; i < network_.first_incidence[node + 1];
         ++i) {
        const Incidence& incidence = network_.incidences[i];
        if (!on_fastest(node, incidence)) {
            continue;
        }
        const std::int64_t before = at(back_, incidence.other).millimetres;
        if (before < 0) {
            pending_.push_back(number_of(incidence.other));
            ready = false;
        } else if (before + edge_length(incidence.edge) < least) {
            least = before + edge_length(incidence.edge);
            best = i;
        }
    }
    if (ready) {
        keep(node, best, least);
    }
}

// Every step back costs at least a tenth of a second, so this ends.
const FastestWays::Back& FastestWays::back_from(std::uint32_t node) {
    pending_.assign(1, node);
    while (!pending_.empty()) {
        const std::uint32_t next = pending_.back();
        if (back_[next].millimetres >= 0) {
            pending_.pop_back();
        } else {
            settle(next);
        }
    }
    return back_[node];
}

// The best of going straight along one edge and of coming by either end, with time and length of
// the whole way. Without time where there is none within the limit.
FastestWays::Piece FastestWays::last_piece(RoadSpot other) {
    Piece best = along_piece(other);
    for (const bool at_from : {true, false}) {
        Piece piece = end_piece(other, at_from, opposite(roads_->heading));
        piece.time = plus(search_.cost(piece.node), piece.time);
        if (piece.time == no_way || piece.time > limit_ || piece.time > best.time) {
            continue;
        }
        piece.millimetres += back_from(piece.node).millimetres;
        if (std::tie(piece.time, piece.millimetres) < std::tie(best.time, best.millimetres)) {
            best = piece;
        }
    }
    return best.time <= limit_ ? best : Piece{};
}

WayMeasure FastestWays::measure(RoadSpot other) {
    const Piece last = last_piece(other);
    WayMeasure measure{last.time, last.millimetres, 0};
    if (last.time == no_way || marks_ == nullptr) {
        return measure;
    }
    const bool straight = last.node == Piece::straight;
    const std::int32_t here = straight ? last.time : last.time - search_.cost(last.node);
    measure.counted = straight ? 0 : back_[last.node].counted;
    measure.counted += here > 0 && marks_of(other.edge).counts ? here : 0;
    return measure;
}

std::vector<RoadIndex> FastestWays::listed(RoadSpot other) {
    std::vector<RoadIndex> roads;
    const Piece last = last_piece(other);
    if (last.time == no_way) {
        return roads;
    }
    const bool moved = last.stretch.from != last.stretch.to;
    if (moved && marks_of(other.edge).listed) {
        roads.push_back(at(network_.edges, other.edge).road);
    }
    std::uint32_t node = last.node == Piece::straight ? UINT32_MAX : back_[last.node].listed;
    while (node != UINT32_MAX) {
        const std::uint32_t incidence = back_[node].incidence;
        const bool starts = incidence >= begins;
        const EdgeIndex edge = starts ? spot_.edge : network_.incidences[incidence].edge;
        roads.push_back(at(network_.edges, edge).road);
        node = starts ? UINT32_MAX : at(back_, network_.incidences[incidence].other).listed;
    }
    return sorted_once(std::move(roads));
}

void FastestWays::walk_back(std::uint32_t node, Way& way) {
    std::uint32_t step = back_from(node).incidence;
    while (step < begins) {
        const Incidence& incidence = network_.incidences[step];
        const double whole = length_of(network_, incidence.edge);
        const bool as_drawn = incidence.forward != away();
        way.push_back({incidence.edge, as_drawn ? 0.0 : whole, as_drawn ? whole : 0.0});
        step = at(back_, incidence.other).incidence;
    }
    way.push_back(starts_[step - begins].stretch);
}

std::optional<Way> FastestWays::way(RoadSpot other) {
    const Piece last = last_piece(other);
    if (last.time == no_way) {
        return std::nullopt;
    }
    Way way{last.stretch};
    if (last.node != Piece::straight) {
        walk_back(last.node, way);
    }
    if (away()) {
        std::ranges::reverse(way);
    }
    std::erase_if(way, [](const Stretch& stretch) { return stretch.from == stretch.to; });
    return way;
}

}  // namespace farwater::routing
