#include "routing/sites/blocks.h"

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/graph/biconnected_components.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>

namespace farwater::routing {
namespace {

// What the graph keeps of one direction of a pair of neighbouring junctions: the pair's number.
struct OfPair {
    std::uint32_t pair = 0;
};

// Both directions of each pair. Lists of the library's other graph take ten times as much, in
// pieces that stay behind between what comes next.
using NeighbourGraph =
    boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, OfPair,
                                       boost::no_property, std::uint32_t, std::uint32_t>;

struct Link {
    std::uint32_t low = 0, high = 0;  // junctions
    std::uint32_t edge = 0;

    bool same_pair(const Link& other) const { return low == other.low && high == other.high; }
};

std::vector<Link> links_of(const Network& network, std::span<const std::uint8_t> open_edges) {
    std::vector<Link> links;
    for (std::uint32_t e = 0; e < network.edges.size(); ++e) {
        const Edge& edge = network.edges[e];
        if (open_edges[e] != 0 && edge.from != edge.to) {
            const auto from = static_cast<std::uint32_t>(edge.from.position());
            const auto to = static_cast<std::uint32_t>(edge.to.position());
            links.push_back({std::min(from, to), std::max(from, to), e});
        }
    }
    std::ranges::sort(links, [](const Link& a, const Link& b) {
        return std::tie(a.low, a.high, a.edge) < std::tie(b.low, b.high, b.edge);
    });
    return links;
}

// Each pair of neighbours once, however many edges join it: where its links begin, and the end.
class Pairs {
public:
    explicit Pairs(const std::vector<Link>& links) {
        for (std::uint32_t i = 0; i < links.size(); ++i) {
            if (i == 0 || !links[i].same_pair(links[i - 1])) {
                first_link_.push_back(i);
            }
        }
        first_link_.push_back(static_cast<std::uint32_t>(links.size()));
    }

    std::size_t size() const { return first_link_.size() - 1; }
    std::uint32_t first(std::size_t pair) const { return first_link_[pair]; }
    std::uint32_t end(std::size_t pair) const { return first_link_[pair + 1]; }

private:
    std::vector<std::uint32_t> first_link_;
};

// Neighbours of each junction ascending.
NeighbourGraph graph_of(const std::vector<Link>& links, const Pairs& pairs, std::size_t nodes) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> ends;
    std::vector<OfPair> of_pair;
    ends.reserve(pairs.size() * 2);
    of_pair.reserve(pairs.size() * 2);
    for (const bool to_higher : {false, true}) {
        for (std::uint32_t pair = 0; pair < pairs.size(); ++pair) {
            const Link& link = links[pairs.first(pair)];
            ends.emplace_back(to_higher ? link.low : link.high, to_higher ? link.high : link.low);
            of_pair.push_back({pair});
        }
    }
    return {boost::edges_are_unsorted_multi_pass, ends.begin(), ends.end(), of_pair.begin(),
            static_cast<std::uint32_t>(nodes)};
}

std::vector<std::uint32_t> component_of_pairs(const std::vector<Link>& links, const Pairs& pairs,
                                              std::size_t nodes) {
    const NeighbourGraph graph = graph_of(links, pairs, nodes);
    std::vector<std::uint32_t> component(pairs.size(), 0);
    boost::biconnected_components(graph, boost::make_iterator_property_map(
                                             component.begin(), boost::get(&OfPair::pair, graph)));
    return component;
}

}  // namespace

Blocks blocks_of(const Network& network, std::span<const std::uint8_t> open_edges) {
    const std::vector<Link> links = links_of(network, open_edges);
    const Pairs pairs(links);
    const std::vector<std::uint32_t> component =
        component_of_pairs(links, pairs, network.nodes.size());
    std::vector<std::uint32_t> edges_in(pairs.size() + 1, 0);  // numbers of components are smaller
    for (std::size_t pair = 0; pair < pairs.size(); ++pair) {
        edges_in[component[pair]] += pairs.end(pair) - pairs.first(pair);
    }
    Blocks blocks{std::vector<std::uint32_t>(network.edges.size(), Blocks::no_loop)};
    for (std::size_t pair = 0; pair < pairs.size(); ++pair) {
        for (std::uint32_t i = pairs.first(pair); i < pairs.end(pair); ++i) {
            blocks.of_edge[links[i].edge] =
                edges_in[component[pair]] > 1 ? component[pair] : Blocks::no_loop;
        }
    }
    auto next = static_cast<std::uint32_t>(pairs.size());  // no component has this number
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (open_edges[e] != 0 && network.edges[e].from == network.edges[e].to) {
            blocks.of_edge[e] = next++;
        }
    }
    return blocks;
}

}  // namespace farwater::routing
