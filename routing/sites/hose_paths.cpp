#include "routing/sites/hose_paths.h"

#include <algorithm>
#include <utility>

#include "analyzer/district/sorted_once.h"

namespace farwater::routing {

HosePaths::HosePaths(const Network& network, const EdgeCosts& lengths, const SearchGraph& graph)
    : network_(network),
      lengths_(lengths),
      graph_(graph),
      search_(network.nodes.size()),
      before_(network.nodes.size(), 0) {}

void HosePaths::begin(RoadSpot house, std::int32_t reach) {
    house_ = house;
    const Edge& edge = at(network_.edges, house.edge);
    const EndCosts ends = end_costs(network_, lengths_, house, Heading::away);
    const auto from = static_cast<std::uint32_t>(edge.from.position());
    const auto to = static_cast<std::uint32_t>(edge.to.position());
    before_[from] = from;
    before_[to] = to;
    search_.start(from, ends.from_end);
    search_.start(to, ends.to_end);
    search_.run(graph_, reach,
                [&](std::uint32_t node, std::uint32_t next) { before_[next] = node; });
}

bool HosePaths::is_inside(RoadSpot site) const {
    return site.along > 0.0 && site.along < in_metres(at(network_.edges, site.edge).length());
}

// The end of a site's edge by which the hose goes on; where the site is at an end, that one.
NodeIndex HosePaths::end_towards_house(RoadSpot site) const {
    const Edge& edge = at(network_.edges, site.edge);
    if (!is_inside(site)) {
        return site.along > 0.0 ? edge.to : edge.from;
    }
    const EndCosts ends = end_costs(network_, lengths_, site, Heading::away);
    const auto cost_at = [&](NodeIndex node, std::int32_t on) {
        return plus(search_.cost(static_cast<std::uint32_t>(node.position())), on);
    };
    return cost_at(edge.from, ends.from_end) <= cost_at(edge.to, ends.to_end) ? edge.from : edge.to;
}

EdgeIndex HosePaths::edge_between(NodeIndex before, NodeIndex node) const {
    // The shortest comes first.
    return std::ranges::find(network_.around(before), node, &Incidence::other)->edge;
}

std::vector<EdgeIndex> HosePaths::edges_to(RoadSpot site) const {
    std::vector<EdgeIndex> edges{house_.edge};
    if (!is_inside(site) || site.edge != house_.edge) {
        if (is_inside(site)) {
            edges.push_back(site.edge);
        }
        NodeIndex node = end_towards_house(site);
        for (NodeIndex before(at(before_, node)); before != node;
             node = before, before = NodeIndex(at(before_, node))) {
            edges.push_back(edge_between(before, node));
        }
    }
    return sorted_once(std::move(edges));
}

HouseSide HosePaths::side_of(RoadSpot site) const {
    if (is_inside(site) && site.edge == house_.edge) {
        return {site.along > house_.along, {}};
    }
    HouseSide side;
    EdgeIndex outwards = is_inside(site) ? site.edge : EdgeIndex{};
    NodeIndex node = end_towards_house(site);
    for (;;) {
        if (outwards.valid() && network_.around(node).size() >= 3) {
            side.arm = outwards;  // one nearer to the house takes its place
        }
        const NodeIndex before(at(before_, node));
        if (before == node) {
            break;
        }
        outwards = edge_between(before, node);
        node = before;
    }
    side.from_end = node != at(network_.edges, house_.edge).from;
    return side;
}

}  // namespace farwater::routing
