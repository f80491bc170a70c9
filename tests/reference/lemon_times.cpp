// Compiled as C++17: LEMON 1.3.1 calls members of std::allocator that C++20 took away.
#include "tests/reference/lemon_times.h"

#include <algorithm>
#include <utility>

#include <lemon/dijkstra.h>
#include <lemon/static_graph.h>

namespace farwater::reference {

Times lemon_times(const StreetGraph& graph, const Sample& sample) {
    using lemon::StaticDigraph;
    std::vector<StreetArc> arcs = graph.arcs;
    std::sort(arcs.begin(), arcs.end(), [](const StreetArc& a, const StreetArc& b) {
        return std::pair(a.from, a.to) < std::pair(b.from, b.to);
    });
    std::vector<std::pair<int, int>> ends;
    ends.reserve(arcs.size());
    for (const StreetArc& arc : arcs) {
        ends.emplace_back(static_cast<int>(arc.from), static_cast<int>(arc.to));
    }
    StaticDigraph digraph;
    digraph.build(static_cast<int>(graph.nodes), ends.begin(), ends.end());
    StaticDigraph::ArcMap<std::int64_t> costs(digraph);
    for (std::size_t i = 0; i < arcs.size(); ++i) {
        costs[digraph.arc(static_cast<int>(i))] = arcs[i].cost;
    }
    lemon::Dijkstra<StaticDigraph, StaticDigraph::ArcMap<std::int64_t>> search(digraph, costs);
    Times times;
    for (const std::uint32_t source : sample.sources) {
        search.run(digraph.node(static_cast<int>(source)));
        for (const std::uint32_t target : sample.targets) {
            const StaticDigraph::Node there = digraph.node(static_cast<int>(target));
            times.push_back(search.reached(there) ? search.dist(there) : unreached);
        }
    }
    return times;
}

}  // namespace farwater::reference
