#include "routing/network.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <tuple>

#include "routing/disjoint_sets.h"
#include "routing/edge_grades.h"
#include "routing/join.h"

namespace farwater::routing {
namespace {

// The edges of one road: from junction to junction along its line. What comes back to its own
// junction at once is the trace of joining.
void append_edges(const Road& road, RoadIndex index, std::span<const std::uint32_t> node_of,
                  double loop, std::vector<Edge>& edges) {
    double along = 0.0;
    double begin = 0.0;
    std::uint32_t last = node_of.front();
    for (std::size_t i = 1; i < road.line.size(); ++i) {
        along += in_metres(distance(road.line[i - 1], road.line[i]));
        const std::uint32_t node = node_of[i];
        if (node == Junctions::not_a_junction) {
            continue;
        }
        if (node != last || along - begin > loop) {
            edges.push_back({NodeIndex(last), NodeIndex(node), index, begin, along});
        }
        last = node;
        begin = along;
    }
}

Network with_edges(const std::vector<Road>& roads, Junctions junctions, double loop) {
    Network network;
    network.nodes = std::move(junctions.nodes);
    network.first_edge.reserve(roads.size() + 1);
    network.first_edge.push_back(0);
    for (std::size_t r = 0; r < roads.size(); ++r) {
        const std::span node_of =
            std::span(junctions.node_of).subspan(junctions.first_vertex[r], roads[r].line.size());
        if (!node_of.empty() && node_of.front() != Junctions::not_a_junction) {
            append_edges(roads[r], RoadIndex(r), node_of, loop, network.edges);
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
    std::uint32_t roads = 0;
    std::uint32_t first_road = UINT32_MAX;
};

std::vector<Part> parts_by_least_node(const Network& network, DisjointSets& together) {
    std::vector<Part> parts(network.nodes.size());
    for (std::uint32_t n = 0; n < parts.size(); ++n) {
        parts[n].least_node = n;
    }
    RoadIndex last_road;
    for (const Edge& edge : network.edges) {
        Part& part = parts[together.least(static_cast<std::uint32_t>(edge.from.position()))];
        part.length += in_metres(edge.length());
        part.roads += edge.road == last_road ? 0U : 1U;
        part.first_road =
            std::min(part.first_road, static_cast<std::uint32_t>(edge.road.position()));
        last_road = edge.road;
    }
    return parts;
}

// The parts that have roads, the longest first; equal ones by their least node.
std::vector<Part> ranked_parts(const Network& network, DisjointSets& together) {
    std::vector<Part> parts = parts_by_least_node(network, together);
    std::erase_if(parts, [](const Part& part) { return part.roads == 0; });
    std::ranges::sort(parts, [](const Part& a, const Part& b) {
        return std::tuple(-a.length, a.least_node) < std::tuple(-b.length, b.least_node);
    });
    return parts;
}

std::vector<std::int32_t> components_of(const std::vector<Part>& parts, std::size_t nodes,
                                        DisjointSets& together) {
    std::vector<std::int32_t> component(nodes, -1);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        component[parts[i].least_node] = static_cast<std::int32_t>(i);
    }
    for (std::uint32_t n = 0; n < nodes; ++n) {
        component[n] = component[together.least(n)];
    }
    return component;
}

DisjointSets connected_nodes(const Network& network) {
    DisjointSets together(network.nodes.size());
    for (const Edge& edge : network.edges) {
        together.join(static_cast<std::uint32_t>(edge.from.position()),
                      static_cast<std::uint32_t>(edge.to.position()));
    }
    return together;
}

Problem road_problem(ProblemId id, const Road& road, std::string detail) {
    return {id, "roads", {}, row_name(road.row), {}, std::move(detail)};
}

std::string size_of(const Part& part) {
    const auto feet_long = std::lround(in_feet(metres(part.length)));
    return "with " + std::to_string(part.roads) + (part.roads == 1 ? " road, " : " roads, ") +
           std::to_string(feet_long) + " ft in all";
}

// A state road does not end in a field: where it does, the data end.
bool ends_at_data(const std::vector<Road>& roads, const Network& network, const Edge& edge) {
    const auto alone = [&](NodeIndex node) { return network.around(node).size() == 1; };
    return at(roads, edge.road).kind == RoadClass::state && (alone(edge.from) || alone(edge.to));
}

std::vector<Problem> problems_of(const std::vector<Road>& roads, const Network& network,
                                 const std::vector<Part>& parts) {
    std::vector<Problem> problems;
    for (std::size_t r = 0; r < roads.size(); ++r) {
        if (network.first_edge[r] == network.first_edge[r + 1]) {
            problems.push_back(road_problem(ProblemId::road_zero_length, roads[r], {}));
        }
    }
    for (const Edge& edge : network.edges) {
        if (ends_at_data(roads, network, edge)) {
            problems.push_back(road_problem(ProblemId::road_edge_of_data, at(roads, edge.road),
                                            at(roads, edge.road).name));
        }
    }
    for (std::size_t i = 1; i < parts.size(); ++i) {
        problems.push_back(
            road_problem(ProblemId::road_island, roads[parts[i].first_road], size_of(parts[i])));
    }
    return problems;
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
    Junctions junctions = find_junctions(district.roads, district.assumptions.join_tolerance, work);
    if (work.stopped()) {
        return {};
    }
    Network network = with_edges(district.roads, std::move(junctions),
                                 shortest_loop(district.assumptions.join_tolerance));
    network.first_incidence = first_incidences(network);
    network.incidences = incidences_of(network);
    DisjointSets together = connected_nodes(network);
    const std::vector<Part> parts = ranked_parts(network, together);
    network.component = components_of(parts, network.nodes.size(), together);
    network.grades = edge_grades(district, network, work);
    std::vector<Problem> problems = problems_of(district.roads, network, parts);
    return {std::move(network), std::move(problems)};
}

}  // namespace farwater::routing
