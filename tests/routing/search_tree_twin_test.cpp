// The branches of a search against all walks back to where it began.
#include <cstdint>
#include <set>

#include <catch2/catch.hpp>

#include "routing/search/search_tree.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"

using namespace farwater;
using routing::EdgeIndex;
using routing::RoadSpot;
using test::Routed;

namespace {

std::uint32_t other_end(const routing::Network& network, EdgeIndex edge, std::uint32_t node) {
    const routing::Edge& one = at(network.edges, edge);
    return static_cast<std::uint32_t>((one.from == NodeIndex(node) ? one.to : one.from).position());
}

// The junctions on the way of the tree from where it begins, the last one too.
std::set<std::uint32_t> way_to(const routing::Network& network, const routing::SearchTree& tree,
                               std::uint32_t node) {
    std::set<std::uint32_t> way{node};
    while (tree.edge_to(node).valid()) {
        node = other_end(network, tree.edge_to(node), node);
        way.insert(node);
    }
    return way;
}

void check_tree(const routing::DrivenRoads& roads, const routing::SearchTree& tree,
                const routing::Search& search) {
    for (const std::uint32_t node : search.reached()) {
        if (const EdgeIndex edge = tree.edge_to(node); edge.valid()) {
            const bool to_end = at(roads.network.edges, edge).to == NodeIndex(node);
            const bool as_drawn = to_end == (roads.heading == routing::Heading::away);
            REQUIRE(search.cost(other_end(roads.network, edge, node)) +
                        roads.costs.of(edge, as_drawn) ==
                    search.cost(node));
        }
        const std::set<std::uint32_t> way = way_to(roads.network, tree, node);
        for (const std::uint32_t above : search.reached()) {
            REQUIRE(tree.branch(above).holds(tree.number(node)) == way.contains(above));
        }
        REQUIRE(tree.has_way(node));
    }
}

}  // namespace

TEST_CASE("all that is reached over a junction is its branch", "[twin]") {
    std::size_t reached = 0;
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const Profile& tanker = at(routed.profiles, routed.profile_of(UnitKind::tanker));
        routing::Search search(network.nodes.size());
        routing::SearchTree tree(network.nodes.size());  // grown anew for each search
        routing::SpotTimes times(0);
        for (const auto heading : {routing::Heading::away, routing::Heading::towards}) {
            const routing::EdgeCosts costs = routing::drive_costs(
                district, network, tanker, district.seasons[0], routing::Load::loaded);
            const routing::SearchGraph graph = routing::search_graph(network, costs, heading);
            const routing::DrivenRoads roads{network, costs, graph, heading};
            const routing::SpotEnds no_ends = routing::spot_ends(network, {}, costs, costs);
            for (const RoadSpot& spot : routed.access.access.sources) {
                if (spot.valid()) {
                    times.measure(roads, spot, {}, no_ends, 6000, search);
                    tree.grow(roads, spot, search);
                    check_tree(roads, tree, search);
                    reached += search.reached().size();
                    search.clear();
                }
            }
        }
    }
    CHECK(reached > 500);
}
