#include "tests/reference/our_times.h"

#include <numeric>

#include "routing/search/search.h"
#include "routing/search/spot_ends.h"

namespace farwater::reference {
namespace {

using namespace farwater::routing;

std::int64_t time_at(std::int32_t cost) { return cost == no_way ? unreached : cost; }

std::uint32_t number(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

void add(StreetGraph& graph, std::uint32_t from, std::uint32_t to, std::int32_t cost) {
    if (cost != no_way) {
        graph.arcs.push_back({from, to, cost});
    }
}

// Arcs as they are driven, or turned round where the search is towards its sources.
void add_edges(const DrivenRoads& roads, StreetGraph& graph) {
    const bool away = roads.heading == Heading::away;
    for (std::size_t e = 0; e < roads.network.edges.size(); ++e) {
        const Edge& edge = roads.network.edges[e];
        add(graph, number(edge.from), number(edge.to), roads.costs.of(EdgeIndex(e), away));
        add(graph, number(edge.to), number(edge.from), roads.costs.of(EdgeIndex(e), !away));
    }
}

void add_between(const DrivenRoads& roads, RoadSpot source, RoadSpot target, std::uint32_t from,
                 std::uint32_t to, StreetGraph& graph) {
    if (source.edge == target.edge) {
        const bool away = roads.heading == Heading::away;
        add(graph, from, to,
            cost_along(roads.network, roads.costs, away ? source : target, away ? target : source));
    }
}

Heading opposite(Heading heading) {
    return heading == Heading::away ? Heading::towards : Heading::away;
}

}  // namespace

Streets::Streets(const StreetGraph& graph) {
    network.nodes.resize(graph.nodes);
    network.first_edge = {0, static_cast<std::uint32_t>(graph.arcs.size())};
    network.first_incidence.assign(graph.nodes + std::size_t{1}, 0);
    for (const StreetArc& arc : graph.arcs) {
        network.edges.push_back({NodeIndex(arc.from), NodeIndex(arc.to), RoadIndex(0), 0.0, 1.0});
        costs.forward.push_back(arc.cost);
        ++network.first_incidence[arc.from + std::size_t{1}];
        ++network.first_incidence[arc.to + std::size_t{1}];
    }
    costs.backward.assign(graph.arcs.size(), no_way);
    std::vector<std::uint32_t>& first = network.first_incidence;
    std::partial_sum(first.begin(), first.end(), first.begin());
    network.incidences.resize(first.back());
    std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
    for (std::size_t e = 0; e < graph.arcs.size(); ++e) {
        const StreetArc& arc = graph.arcs[e];
        network.incidences[next[arc.from]++] = {NodeIndex(arc.to), EdgeIndex(e), true};
        network.incidences[next[arc.to]++] = {NodeIndex(arc.from), EdgeIndex(e), false};
    }
}

Times our_times(const Streets& streets, Heading heading, const Sample& sample, std::int32_t limit) {
    const SearchGraph graph = search_graph(streets.network, streets.costs, heading);
    Search search(streets.network.nodes.size());
    Times times;
    for (const std::uint32_t source : sample.sources) {
        search.start(source, 0);
        search.run(graph, limit);
        for (const std::uint32_t target : sample.targets) {
            times.push_back(time_at(search.cost(target)));
        }
        search.clear();
    }
    return times;
}

Times our_spot_times(const DrivenRoads& roads, std::span<const RoadSpot> sources,
                     std::span<const RoadSpot> targets, std::int32_t limit) {
    const SpotEnds ends = spot_ends(roads.network, targets, roads.costs, roads.costs);
    Search search(roads.network.nodes.size());
    SpotTimes found(targets.size());
    Times times;
    for (const RoadSpot source : sources) {
        found.measure(roads, source, targets, ends, limit, search);
        search.clear();
        for (std::uint32_t target = 0; target < targets.size(); ++target) {
            times.push_back(time_at(found.cost(target)));
        }
        found.clear();
    }
    return times;
}

SpotQuestion spot_question(const DrivenRoads& roads, std::span<const RoadSpot> sources,
                           std::span<const RoadSpot> targets) {
    SpotQuestion question;
    StreetGraph& graph = question.graph;
    add_edges(roads, graph);
    graph.nodes = static_cast<std::uint32_t>(roads.network.nodes.size());
    for (const RoadSpot spot : sources) {
        const Edge& edge = at(roads.network.edges, spot.edge);
        const EndCosts costs = end_costs(roads.network, roads.costs, spot, roads.heading);
        add(graph, graph.nodes, number(edge.from), costs.from_end);
        add(graph, graph.nodes, number(edge.to), costs.to_end);
        question.sample.sources.push_back(graph.nodes++);
    }
    for (const RoadSpot spot : targets) {
        const Edge& edge = at(roads.network.edges, spot.edge);
        const EndCosts costs = end_costs(roads.network, roads.costs, spot, opposite(roads.heading));
        add(graph, number(edge.from), graph.nodes, costs.from_end);
        add(graph, number(edge.to), graph.nodes, costs.to_end);
        for (std::size_t s = 0; s < sources.size(); ++s) {
            add_between(roads, sources[s], spot, question.sample.sources[s], graph.nodes, graph);
        }
        question.sample.targets.push_back(graph.nodes++);
    }
    return question;
}

}  // namespace farwater::reference
