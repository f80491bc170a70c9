#include "routing/search/arrivals.h"

#include <algorithm>
#include <utility>

namespace farwater::routing {
namespace {

bool by_edge(const Start& a, const Start& b) { return a.spot.edge < b.spot.edge; }

EdgeCosts lengths_of_closed(const Network& network, const EdgeCosts& costs) {
    std::vector<std::uint8_t> closed(network.edges.size());
    for (std::size_t e = 0; e < closed.size(); ++e) {
        closed[e] = costs.passable(EdgeIndex(e)) ? 0 : 1;
    }
    return lengths_of(network, closed);
}

std::uint32_t number(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

}  // namespace

Arrivals::Arrivals(const Network& network, const EdgeCosts& costs, std::vector<Start> starts,
                   std::int32_t limit)
    : network_(network), costs_(costs), starts_(std::move(starts)), search_(network.nodes.size()) {
    std::erase_if(starts_,
                  [](const Start& start) { return !start.spot.valid() || start.cost == no_way; });
    std::ranges::stable_sort(starts_, by_edge);
    for (const Start& start : starts_) {
        const Edge& edge = at(network.edges, start.spot.edge);
        const EndCosts ends = end_costs(network, costs, start.spot, Heading::away);
        search_.start(number(edge.from), plus(start.cost, ends.from_end));
        search_.start(number(edge.to), plus(start.cost, ends.to_end));
    }
    search_.run(search_graph(network, costs, Heading::away), limit);
}

std::int32_t Arrivals::at_node(NodeIndex node) const { return search_.cost(number(node)); }

std::int32_t Arrivals::at_spot(RoadSpot spot) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const EndCosts ends = end_costs(network_, costs_, spot, Heading::towards);
    std::int32_t best =
        std::min(plus(at_node(edge.from), ends.from_end), plus(at_node(edge.to), ends.to_end));
    const auto [first, last] = std::ranges::equal_range(starts_, Start{spot, 0}, by_edge);
    for (auto start = first; start != last; ++start) {
        best = std::min(best, plus(start->cost, cost_along(network_, costs_, start->spot, spot)));
    }
    return best;
}

Gates::Gates(const Arrivals& arrivals, std::int32_t limit)
    : arrivals_(arrivals),
      lengths_(lengths_of_closed(arrivals.network(), arrivals.costs())),
      search_(arrivals.network().nodes.size()),
      origin_(arrivals.network().nodes.size()) {
    const Network& network = arrivals.network();
    const SearchGraph graph = search_graph(network, lengths_, Heading::away);
    for (std::uint32_t n = 0; n < network.nodes.size(); ++n) {
        if (!graph.from(n).empty() && arrivals.at_node(NodeIndex(n)) != no_way) {
            origin_[n] = n;
            search_.start(n, 0);
        }
    }
    search_.run(graph, limit,
                [&](std::uint32_t from, std::uint32_t to) { origin_[to] = origin_[from]; });
}

std::optional<Gates::Gate> Gates::gate_of(RoadSpot spot) const {
    const Network& network = arrivals_.network();
    if (arrivals_.costs().passable(spot.edge)) {
        return std::nullopt;
    }
    const Edge& edge = at(network.edges, spot.edge);
    const EndCosts ends = end_costs(network, lengths_, spot, Heading::towards);
    const std::int32_t from = plus(search_.cost(number(edge.from)), ends.from_end);
    const std::int32_t to = plus(search_.cost(number(edge.to)), ends.to_end);
    if (from == no_way && to == no_way) {
        return std::nullopt;
    }
    const NodeIndex end = from <= to ? edge.from : edge.to;
    return Gate{NodeIndex(origin_[number(end)]), std::min(from, to)};
}

}  // namespace farwater::routing
