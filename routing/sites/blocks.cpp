#include "routing/sites/blocks.h"

#include <algorithm>
#include <tuple>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>

namespace farwater::routing {
namespace {

// Neighbouring junctions, with the number of the pair as the edge's index.
using UndirectedGraph =
    boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property,
                          boost::property<boost::edge_index_t, std::uint32_t>>;

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

// Each pair of neighbours once, however many edges join it.
struct Pairs {
    std::vector<std::uint32_t> first_link;  // per pair, and one more
    UndirectedGraph graph;

    std::size_t size() const { return first_link.size() - 1; }
    std::uint32_t links(std::size_t pair) const { return first_link[pair + 1] - first_link[pair]; }
};

Pairs pairs_of(const std::vector<Link>& links, std::size_t nodes) {
    Pairs pairs{{}, UndirectedGraph(nodes)};
    for (std::uint32_t i = 0; i < links.size(); ++i) {
        if (i == 0 || !links[i].same_pair(links[i - 1])) {
            boost::add_edge(links[i].low, links[i].high,
                            static_cast<std::uint32_t>(pairs.first_link.size()), pairs.graph);
            pairs.first_link.push_back(i);
        }
    }
    pairs.first_link.push_back(static_cast<std::uint32_t>(links.size()));
    return pairs;
}

std::vector<std::uint32_t> component_of_pairs(const Pairs& pairs) {
    std::vector<std::uint32_t> component(pairs.size(), 0);
    boost::biconnected_components(
        pairs.graph, boost::make_iterator_property_map(component.begin(),
                                                       boost::get(boost::edge_index, pairs.graph)));
    return component;
}

}  // namespace

Blocks blocks_of(const Network& network, std::span<const std::uint8_t> open_edges) {
    const std::vector<Link> links = links_of(network, open_edges);
    const Pairs pairs = pairs_of(links, network.nodes.size());
    const std::vector<std::uint32_t> component = component_of_pairs(pairs);
    std::vector<std::uint32_t> edges_in(pairs.size() + 1, 0);  // numbers of components are smaller
    for (std::size_t pair = 0; pair < pairs.size(); ++pair) {
        edges_in[component[pair]] += pairs.links(pair);
    }
    Blocks blocks{std::vector<std::uint32_t>(network.edges.size(), Blocks::no_loop)};
    for (std::size_t pair = 0; pair < pairs.size(); ++pair) {
        for (std::uint32_t i = pairs.first_link[pair]; i < pairs.first_link[pair + 1]; ++i) {
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
