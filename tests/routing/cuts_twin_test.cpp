// Whether closed edges part the ends of a way, against a fill of the network without them.
#include <algorithm>
#include <array>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include <catch2/catch.hpp>

#include "routing/sites/cuts.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"

using namespace farwater;
using routing::EdgeIndex;
using test::Dice;
using test::Routed;

namespace {

// The edge by which each junction is met first; the start has none.
std::map<NodeIndex, EdgeIndex> filled(const routing::Network& network, NodeIndex start,
                                      const std::vector<EdgeIndex>& closed) {
    std::map<NodeIndex, EdgeIndex> met{{start, EdgeIndex()}};
    for (std::deque<NodeIndex> queue{start}; !queue.empty(); queue.pop_front()) {
        for (const routing::Incidence& incidence : network.around(queue.front())) {
            if (std::ranges::find(closed, incidence.edge) == closed.end() &&
                met.emplace(incidence.other, incidence.edge).second) {
                queue.push_back(incidence.other);
            }
        }
    }
    return met;
}

// The edges of the way that a fill of all went to a junction; none where it did not get there.
std::optional<std::vector<EdgeIndex>> way_to(const routing::Network& network, NodeIndex node,
                                             const std::map<NodeIndex, EdgeIndex>& met) {
    if (!met.contains(node)) {
        return std::nullopt;
    }
    std::vector<EdgeIndex> way;
    while (met.at(node).valid()) {
        way.push_back(met.at(node));
        const routing::Edge& edge = at(network.edges, way.back());
        node = edge.from == node ? edge.to : edge.from;
    }
    return way;
}

// Some on the way, some beside it, each once.
std::vector<EdgeIndex> some_closed(Dice& dice, const routing::Network& network,
                                   const std::vector<EdgeIndex>& way) {
    std::vector<EdgeIndex> closed;
    for (std::size_t count = 1 + dice.below(5); count > 0; --count) {
        const bool beside = way.empty() || dice.one_in(2);
        closed.push_back(beside ? EdgeIndex(dice.below(network.edges.size())) : dice.of(way));
    }
    std::ranges::sort(closed);
    const auto rest = std::ranges::unique(closed);
    closed.erase(rest.begin(), rest.end());
    return closed;
}

}  // namespace

TEST_CASE("closed edges part the ends of a way where no other way joins them", "[twin]") {
    std::size_t parted = 0;
    std::size_t joined = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const std::vector<std::uint8_t> all(network.edges.size(), 1);
        const routing::Cuts cuts(network, all);
        Dice dice(seed);
        for (int round = 0; round < 200; ++round) {
            CAPTURE(seed, round);
            const NodeIndex a(dice.below(network.nodes.size()));
            const NodeIndex b(dice.below(network.nodes.size()));
            const auto way = way_to(network, b, filled(network, a, {}));
            if (!way) {
                continue;
            }
            const std::vector<EdgeIndex> closed = some_closed(dice, network, *way);
            std::array<bool, 8> on_way{};
            for (std::size_t i = 0; i < closed.size(); ++i) {
                on_way[i] = std::ranges::find(*way, closed[i]) != way->end();
            }
            const bool apart = !filled(network, a, closed).contains(b);
            REQUIRE(cuts.part(closed, std::span(on_way).first(closed.size())) == apart);
            parted += apart ? 1U : 0U;
            joined += apart ? 0U : 1U;
        }
    }
    CHECK(parted > 150);
    CHECK(joined > 1000);
}
