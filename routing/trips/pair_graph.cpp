#include "routing/trips/pair_graph.h"

#include <algorithm>

namespace farwater::routing {
namespace {

std::int32_t either_of(std::int32_t out, std::int32_t back) {
    if (out == no_way && back == no_way) {
        return no_way;
    }
    if (out == no_way) {
        return 2 * back;
    }
    return back == no_way ? 2 * out : out + back;
}

}  // namespace

PairCosts pair_costs(const Network& network, const EdgeCosts& out, const EdgeCosts& back) {
    PairCosts costs{out, back, {}};
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        costs.either.forward.push_back(either_of(out.forward[e], back.backward[e]));
        costs.either.backward.push_back(either_of(out.backward[e], back.forward[e]));
    }
    return costs;
}

void PairGraph::aim(const PairCosts& costs, RoadSpot target) {
    costs_ = &costs;
    target_ = target;
}

void PairGraph::start_from(RoadSpot place, std::span<const EdgeIndex> closed) {
    place_ = place;
    closed_ = closed;
}

bool PairGraph::inside(RoadSpot spot) const {
    return spot.along > 0.0 && spot.along < in_metres(at(network_.edges, spot.edge).length());
}

bool PairGraph::on_one_edge() const {
    return place_.edge == target_.edge && inside(place_) && inside(target_);
}

std::uint32_t PairGraph::terminal(RoadSpot spot, std::uint32_t number) const {
    const Edge& edge = at(network_.edges, spot.edge);
    return inside(spot)
               ? number
               : static_cast<std::uint32_t>((spot.along > 0.0 ? edge.to : edge.from).position());
}

bool PairGraph::closed_edge(EdgeIndex edge) const {
    return std::ranges::find(closed_, edge) != closed_.end();
}

bool PairGraph::shut() const {
    return (inside(place_) && closed_edge(place_.edge)) ||
           (inside(target_) && closed_edge(target_.edge));
}

bool PairGraph::at_the_target() const {
    return start() == goal() || (place_.edge == target_.edge && place_.along == target_.along);
}

RoadSpot PairGraph::end_of(RoadSpot spot, bool to_end) const {
    return {spot.edge, to_end ? in_metres(at(network_.edges, spot.edge).length()) : 0.0};
}

PairArc PairGraph::part(Part which, RoadSpot from, RoadSpot to, std::uint32_t end) const {
    return {end, id_of(which), 1,
            either_of(cost_along(network_, costs_->out, from, to),
                      cost_along(network_, costs_->back, to, from))};
}

// The other one of both stands in the way where they are on one edge.
void PairGraph::add_first_parts(std::vector<PairArc>& arcs) const {
    const Edge& edge = at(network_.edges, place_.edge);
    if (!on_one_edge() || target_.along > place_.along) {
        arcs.push_back(part(Part::to_from, place_, end_of(place_, false),
                            static_cast<std::uint32_t>(edge.from.position())));
    }
    if (!on_one_edge() || target_.along < place_.along) {
        arcs.push_back(part(Part::to_to, place_, end_of(place_, true),
                            static_cast<std::uint32_t>(edge.to.position())));
    }
    if (on_one_edge()) {
        arcs.push_back(part(Part::straight, place_, target_, goal()));
    }
}

void PairGraph::add_last_parts(std::uint32_t node, std::vector<PairArc>& arcs) const {
    const Edge& edge = at(network_.edges, target_.edge);
    const NodeIndex junction(node);
    if (edge.from == junction && (!on_one_edge() || target_.along < place_.along)) {
        arcs.push_back(part(Part::from_from, end_of(target_, false), target_, goal()));
    }
    if (edge.to == junction && (!on_one_edge() || target_.along > place_.along)) {
        arcs.push_back(part(Part::from_to, end_of(target_, true), target_, goal()));
    }
}

std::vector<PairArc> PairGraph::last_parts() const {
    std::vector<PairArc> parts;
    if (inside(target_)) {
        const Edge& edge = at(network_.edges, target_.edge);
        parts.push_back(part(Part::from_from, end_of(target_, false), target_,
                             static_cast<std::uint32_t>(edge.from.position())));
        parts.push_back(part(Part::from_to, end_of(target_, true), target_,
                             static_cast<std::uint32_t>(edge.to.position())));
    }
    return parts;
}

void PairGraph::arcs_from(std::uint32_t node, std::vector<PairArc>& arcs) const {
    arcs.clear();
    if (!is_junction(node)) {
        add_first_parts(arcs);
        return;
    }
    const EdgeIndex place_edge = inside(place_) ? place_.edge : EdgeIndex();
    const EdgeIndex target_edge = inside(target_) ? target_.edge : EdgeIndex();
    for (const Incidence& incidence : network_.around(NodeIndex(node))) {
        const bool whole = incidence.edge != place_edge && incidence.edge != target_edge;
        if (whole && incidence.other != NodeIndex(node) && !closed_edge(incidence.edge)) {
            arcs.push_back({static_cast<std::uint32_t>(incidence.other.position()),
                            static_cast<std::uint32_t>(incidence.edge.position()),
                            static_cast<std::int8_t>(incidence.forward ? 1 : -1),
                            costs_->either.of(incidence.edge, incidence.forward)});
        }
    }
    if (target_edge.valid()) {
        add_last_parts(node, arcs);
    }
}

PairGraph::Driven PairGraph::driven(const PairArc& arc) const {
    if (arc.id < network_.edges.size()) {
        const RoadSpot edge{EdgeIndex(arc.id), 0.0};
        return {end_of(edge, arc.heading < 0), end_of(edge, arc.heading > 0)};
    }
    switch (static_cast<Part>(arc.id - network_.edges.size())) {
        case Part::to_from:
            return {place_, end_of(place_, false)};
        case Part::to_to:
            return {place_, end_of(place_, true)};
        case Part::from_from:
            return {end_of(target_, false), target_};
        case Part::from_to:
            return {end_of(target_, true), target_};
        case Part::straight:
            break;
    }
    return {place_, target_};
}

EdgeIndex PairGraph::edge_of(std::uint32_t id) const {
    if (id < network_.edges.size()) {
        return EdgeIndex(id);
    }
    return id < id_of(Part::from_from) ? place_.edge : target_.edge;
}

}  // namespace farwater::routing
