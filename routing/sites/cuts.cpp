#include "routing/sites/cuts.h"

#include <algorithm>
#include <array>

namespace farwater::routing {
namespace {

// A well-mixed number for each number: the finaliser of SplitMix64 (Steele, Lea, Flood 2014).
std::uint64_t drawn(std::uint64_t number) {
    std::uint64_t z = (number + 1) * 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
}

// The nodes of a spanning forest of the open edges, each after the one above it.
struct Forest {
    std::vector<NodeIndex> order;
    std::vector<EdgeIndex> edge_above;  // per node; not valid for roots
};

Forest forest_of(const Network& network, std::span<const std::uint8_t> open_edges) {
    Forest forest{{}, std::vector<EdgeIndex>(network.nodes.size())};
    std::vector<bool> met(network.nodes.size(), false);
    forest.order.reserve(network.nodes.size());
    for (std::size_t root = 0; root < network.nodes.size(); ++root) {
        if (met[root]) {
            continue;
        }
        met[root] = true;
        std::size_t next = forest.order.size();
        forest.order.emplace_back(root);
        for (; next < forest.order.size(); ++next) {
            for (const Incidence& incidence : network.around(forest.order[next])) {
                if (at(open_edges, incidence.edge) != 0 && !met[incidence.other.position()]) {
                    met[incidence.other.position()] = true;
                    at(forest.edge_above, incidence.other) = incidence.edge;
                    forest.order.push_back(incidence.other);
                }
            }
        }
    }
    return forest;
}

}  // namespace

// The label of an edge of the forest is the xor of all drawn edges that go round it: those with one
// end below it. A node's sum is the xor of the drawn edges at it and below.
Cuts::Cuts(const Network& network, std::span<const std::uint8_t> open_edges)
    : label_(network.edges.size(), 0) {
    const Forest forest = forest_of(network, open_edges);
    std::vector<bool> in_forest(network.edges.size(), false);
    for (const EdgeIndex edge : forest.edge_above) {
        if (edge.valid()) {
            in_forest[edge.position()] = true;
        }
    }
    std::vector<std::uint64_t> sum(network.nodes.size(), 0);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (open_edges[e] != 0 && !in_forest[e]) {
            label_[e] = drawn(e);
            at(sum, network.edges[e].from) ^= label_[e];
            at(sum, network.edges[e].to) ^= label_[e];
        }
    }
    for (auto node = forest.order.rbegin(); node != forest.order.rend(); ++node) {
        const EdgeIndex above = at(forest.edge_above, *node);
        if (above.valid()) {
            const Edge& edge = at(network.edges, above);
            at(label_, above) = at(sum, *node);
            at(sum, edge.from == *node ? edge.to : edge.from) ^= at(sum, *node);
        }
    }
}

// It is a bridge when, with some of the closed edges, it is a cut: when its label is an xor of some
// of theirs (Gauss).
bool Cuts::bridge_without(EdgeIndex edge, std::span<const EdgeIndex> closed) const {
    std::vector<std::uint64_t> basis;
    const auto reduced = [&basis](std::uint64_t label) {
        for (const std::uint64_t other : basis) {
            label = std::min(label, label ^ other);
        }
        return label;
    };
    for (const EdgeIndex one : closed) {
        if (const std::uint64_t rest = reduced(at(label_, one)); rest != 0) {
            basis.push_back(rest);
        }
    }
    return reduced(at(label_, edge)) == 0;
}

// A cut lies between the ends of a way that goes over an odd number of its edges; so with that
// number's last bit beside the labels, 0 and 1 is an xor of some of them (Gauss).
bool Cuts::part(std::span<const EdgeIndex> closed, std::span<const bool> on_way) const {
    struct Row {
        std::uint64_t label = 0;
        bool odd = false;
    };
    constexpr std::size_t most = 16;
    std::array<Row, most> basis;
    std::size_t count = 0;
    for (std::size_t i = 0; i < std::min(closed.size(), most); ++i) {
        Row row{at(label_, closed[i]), on_way[i]};
        for (const Row& other : std::span(basis).first(count)) {
            if ((row.label ^ other.label) < row.label) {
                row = {row.label ^ other.label, row.odd != other.odd};
            }
        }
        if (row.label == 0 && row.odd) {
            return true;
        }
        if (row.label != 0) {
            basis[count++] = row;
        }
    }
    return false;
}

}  // namespace farwater::routing
