#include "routing/network.h"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "analyzer/district/disjoint_sets.h"
#include "routing/driving/edge_grades.h"
#include "routing/noding/junctions.h"
#include "routing/noding/network_problems.h"
#include "routing/noding/vertices.h"

namespace farwater::routing {
namespace {

// Collects the edges of one road while its junctions are met along it.
class EdgeWriter {
public:
    EdgeWriter(RoadIndex road, std::uint32_t first_node, double loop, std::vector<Edge>& edges)
        : road_(road), loop_(loop), last_(first_node), edges_(edges) {}

    // What comes back to its own junction at once is the trace of joining.
    void meet(std::uint32_t node, double along) {
        if (node != last_ || along - begin_ > loop_) {
            edges_.push_back({NodeIndex(last_), NodeIndex(node), road_, begin_, along});
        }
        last_ = node;
        begin_ = along;
    }

private:
    RoadIndex road_;
    double loop_;
    double begin_ = 0.0;
    std::uint32_t last_;
    std::vector<Edge>& edges_;
};

// From junction to junction along the line; `cuts` are those inside its segments.
void append_edges(const Road& road, std::span<const std::uint32_t> node_of,
                  std::span<const Cut> cuts, std::uint32_t first_vertex, EdgeWriter writer) {
    double along = 0.0;
    auto cut = cuts.begin();
    for (std::uint32_t i = 1; i < road.line.size(); ++i) {
        for (; cut != cuts.end() && cut->place.vertex - first_vertex < i; ++cut) {
            writer.meet(cut->node, along + cut->place.beyond);
        }
        along += in_metres(distance(road.line[i - 1], road.line[i]));
        if (node_of[i] != Junctions::not_a_junction) {
            writer.meet(node_of[i], along);
        }
    }
}

// The cuts of one road, which begin at `from`.
std::span<const Cut> cuts_before(const std::vector<Cut>& cuts, std::size_t from,
                                 std::uint32_t vertex) {
    std::size_t end = from;
    while (end < cuts.size() && cuts[end].place.vertex < vertex) {
        ++end;
    }
    return std::span(cuts).subspan(from, end - from);
}

Network with_edges(const std::vector<Road>& roads, const Junctions& junctions, double loop) {
    Network network;
    network.nodes = junctions.nodes;
    network.first_edge.reserve(roads.size() + 1);
    network.first_edge.push_back(0);
    std::size_t cut = 0;
    for (std::size_t r = 0; r < roads.size(); ++r) {
        const std::uint32_t first = junctions.first_vertex[r];
        const std::span node_of = std::span(junctions.node_of).subspan(first, roads[r].line.size());
        if (!node_of.empty() && node_of.front() != Junctions::not_a_junction) {
            const auto cuts = cuts_before(junctions.cuts, cut, junctions.first_vertex[r + 1]);
            append_edges(roads[r], node_of, cuts, first,
                         EdgeWriter(RoadIndex(r), node_of.front(), loop, network.edges));
            cut += cuts.size();
        }
        network.first_edge.push_back(static_cast<std::uint32_t>(network.edges.size()));
    }
    return network;
}

std::vector<std::uint32_t> first_incidences(const Network& network) {
    std::vector<std::uint32_t> first(network.nodes.size() + 1, 0);
    for (const Edge& edge : network.edges) {
        ++first[edge.from.position() + 1];
        ++first[edge.to.position() + 1];
    }
    std::partial_sum(first.begin(), first.end(), first.begin());
    return first;
}

// Precondition: first_incidence is there.
std::vector<Incidence> incidences_of(const Network& network) {
    const std::vector<std::uint32_t>& first = network.first_incidence;
    std::vector<Incidence> incidences(first.back());
    std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const Edge& edge = network.edges[e];
        incidences[next[edge.from.position()]++] = {edge.to, EdgeIndex(e), true};
        incidences[next[edge.to.position()]++] = {edge.from, EdgeIndex(e), false};
    }
    const auto before = [&](const Incidence& a, const Incidence& b) {
        return std::tuple(a.other, at(network.edges, a.edge).length(), a.edge, b.forward) <
               std::tuple(b.other, at(network.edges, b.edge).length(), b.edge, a.forward);
    };
    for (std::size_t n = 0; n < network.nodes.size(); ++n) {
        std::sort(incidences.begin() + first[n], incidences.begin() + first[n + 1], before);
    }
    return incidences;
}

// A connected part of the network while parts are ranked.
struct Part {
    std::uint32_t least_node = 0;
    double length = 0.0;
    bool has_road = false;
};

std::vector<Part> parts_by_least_node(const Network& network, DisjointSets& together) {
    std::vector<Part> parts(network.nodes.size());
    for (std::uint32_t n = 0; n < parts.size(); ++n) {
        parts[n].least_node = n;
    }
    for (const Edge& edge : network.edges) {
        Part& part = parts[together.least(static_cast<std::uint32_t>(edge.from.position()))];
        part.length += in_metres(edge.length());
        part.has_road = true;
    }
    return parts;
}

// The parts that have roads, the longest first; equal ones by their least node.
std::vector<Part> ranked_parts(const Network& network, DisjointSets& together) {
    std::vector<Part> parts = parts_by_least_node(network, together);
    std::erase_if(parts, [](const Part& part) { return !part.has_road; });
    std::ranges::sort(parts, [](const Part& a, const Part& b) {
        return std::tuple(-a.length, a.least_node) < std::tuple(-b.length, b.least_node);
    });
    return parts;
}

DisjointSets connected_nodes(const Network& network) {
    DisjointSets together(network.nodes.size());
    for (const Edge& edge : network.edges) {
        together.join(static_cast<std::uint32_t>(edge.from.position()),
                      static_cast<std::uint32_t>(edge.to.position()));
    }
    return together;
}

std::vector<std::int32_t> components_of(const Network& network) {
    DisjointSets together = connected_nodes(network);
    const std::vector<Part> parts = ranked_parts(network, together);
    const std::size_t nodes = network.nodes.size();
    std::vector<std::int32_t> component(nodes, -1);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        component[parts[i].least_node] = static_cast<std::int32_t>(i);
    }
    for (std::uint32_t n = 0; n < nodes; ++n) {
        component[n] = component[together.least(n)];
    }
    return component;
}

}  // namespace

Point point_along(const Polyline& line, double along) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double length = in_metres(distance(line[i - 1], line[i]));
        if (along <= length && length > 0.0) {
            const double share = std::max(along, 0.0) / length;
            return {line[i - 1].x + share * (line[i].x - line[i - 1].x),
                    line[i - 1].y + share * (line[i].y - line[i - 1].y)};
        }
        along -= length;
    }
    return line.back();
}

Point place_of(const District& district, const Network& network, RoadSpot spot) {
    const Edge& edge = at(network.edges, spot.edge);
    return point_along(at(district.roads, edge.road).line, edge.begin + spot.along);
}

RoadSpot spot_on(const Network& network, EdgeIndex edge, double along) {
    constexpr double millimetre = 1e-3;
    const double length = in_metres(at(network.edges, edge).length());
    if (along < millimetre) {
        return {edge, 0.0};
    }
    return {edge, length - along < millimetre ? length : along};
}

RoadSpot spot_on(const Network& network, RoadIndex road, double along) {
    const std::span<const Edge> edges = network.edges_of(road);
    const auto beyond = std::ranges::upper_bound(edges, along, {}, &Edge::begin);
    const auto here = beyond == edges.begin() ? beyond : std::prev(beyond);
    const auto edge =
        network.first_edge[road.position()] + static_cast<std::size_t>(here - edges.begin());
    return spot_on(network, EdgeIndex(edge), along - here->begin);
}

NetworkResult build_network(const District& district, const Work& work) {
    const Junctions junctions = find_junctions(district.roads, district.assumptions, work);
    if (work.stopped()) {
        return {};
    }
    Network network = with_edges(district.roads, junctions,
                                 reach_of(district.assumptions.join_tolerance).shortest_loop());
    network.first_incidence = first_incidences(network);
    network.incidences = incidences_of(network);
    network.component = components_of(network);
    network.grades = edge_grades(district, network, work);
    std::vector<Problem> problems = network_problems(district.roads, junctions, network);
    return {std::move(network), std::move(problems)};
}

}  // namespace farwater::routing
