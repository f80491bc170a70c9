#include "routing/lanes.h"

#include <algorithm>

namespace farwater::routing {
namespace {

// Marked edges around each node; a loop counts twice.
std::vector<std::uint32_t> degrees(const Network& network, std::span<const std::uint8_t> marked) {
    std::vector<std::uint32_t> degree(network.nodes.size(), 0);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        degree[network.edges[e].from.position()] += marked[e];
        degree[network.edges[e].to.position()] += marked[e];
    }
    return degree;
}

const Incidence* only_marked(const Network& network, std::span<const std::uint8_t> marked,
                             NodeIndex node) {
    for (const Incidence& incidence : network.around(node)) {
        if (at(marked, incidence.edge) != 0) {
            return &incidence;
        }
    }
    return nullptr;
}

bool any_through(const Network& network, std::span<const std::uint8_t> through, NodeIndex node) {
    const std::span<const Incidence> around = network.around(node);
    return std::ranges::any_of(
        around, [&](const Incidence& incidence) { return at(through, incidence.edge) != 0; });
}

}  // namespace

std::vector<std::uint8_t> through_edges(const Network& network,
                                        std::span<const std::uint8_t> marked_edges) {
    std::vector<std::uint8_t> left(marked_edges.begin(), marked_edges.end());
    std::vector<std::uint32_t> degree = degrees(network, left);
    std::vector<NodeIndex> dead_ends;
    for (std::size_t n = 0; n < degree.size(); ++n) {
        if (degree[n] == 1) {
            dead_ends.emplace_back(n);
        }
    }
    while (!dead_ends.empty()) {
        const NodeIndex node = dead_ends.back();
        dead_ends.pop_back();
        const Incidence* last = only_marked(network, left, node);
        if (last == nullptr) {
            continue;  // its edge went from the other side
        }
        left[last->edge.position()] = 0;
        if (--at(degree, last->other) == 1) {
            dead_ends.push_back(last->other);
        }
    }
    return left;
}

LaneClass lane_at(const Network& network, std::span<const std::uint8_t> through, RoadSpot spot) {
    const Edge& edge = at(network.edges, spot.edge);
    const bool open =
        at(through, spot.edge) != 0 ||
        (spot.along <= 0.0 && any_through(network, through, edge.from)) ||
        (spot.along >= in_metres(edge.length()) && any_through(network, through, edge.to));
    return open ? LaneClass::through : LaneClass::dead_end;
}

}  // namespace farwater::routing
