// The nearest sources by searches that end early, against ways that are looked up one by one.
#include <algorithm>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "routing/search/nearest_sources.h"
#include "routing/speeds.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using namespace farwater::routing;

namespace {

using Ranked = std::vector<std::pair<long, std::uint32_t>>;  // cost, source

// Some are nowhere, some at the ends of edges, some at the same place.
std::vector<RoadSpot> random_spots(const Network& network, std::size_t count, test::Dice& dice) {
    std::vector<RoadSpot> spots;
    for (std::size_t i = 0; i < count; ++i) {
        const EdgeIndex edge(dice.below(network.edges.size()));
        const double length = in_metres(at(network.edges, edge).length());
        const double along = dice.one_in(3) ? 0.0 : dice.between(0, 1.2 * length);
        spots.push_back(dice.one_in(10) ? RoadSpot{} : spot_on(network, edge, along));
        if (dice.one_in(5)) {
            spots.push_back(spots.back());
        }
    }
    return spots;
}

struct Town {
    const District& district;
    const Network& network;
    slow::Streets streets = slow::streets_of(district);
    slow::PieceCosts costs;

    slow::Spot spot(RoadSpot given) const {
        const Edge& edge = at(network.edges, given.edge);
        return slow::spot_on(streets, edge.road.position(), edge.begin + given.along);
    }

    Ranked nearest(const std::vector<RoadSpot>& sources, RoadSpot place, Heading heading,
                   std::size_t most, long limit) const {
        Ranked ranked;
        for (std::uint32_t s = 0; s < sources.size() && place.valid(); ++s) {
            if (sources[s].valid()) {
                const slow::Spot from = spot(heading == Heading::away ? sources[s] : place);
                const slow::Spot to = spot(heading == Heading::away ? place : sources[s]);
                ranked.emplace_back(slow::way_between(streets, costs, from, to), s);
            }
        }
        std::erase_if(ranked, [&](const auto& one) { return one.first > limit; });
        std::ranges::sort(ranked);
        ranked.resize(std::min(ranked.size(), most));
        return ranked;
    }
};

Ranked ranked_of(std::span<const NearSource> list) {
    Ranked ranked;
    for (const NearSource& one : list) {
        ranked.emplace_back(one.cost, one.source);
    }
    return ranked;
}

}  // namespace

TEST_CASE("the nearest sources by one way equal those found by comparing all", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const District district = test::random_district(seed);
        const test::Routed routed(district);
        const Network& network = routed.network.network;
        const Profile& tanker = at(routed.profiles, routed.profile_of(UnitKind::tanker));
        const Season& season = district.seasons.front();
        const EdgeCosts costs = drive_costs(district, network, tanker, season, Load::loaded);
        const Town town{
            district, network, slow::streets_of(district),
            slow::drive_times(district, slow::streets_of(district), tanker, season, true)};
        test::Dice dice(seed);
        const auto sources = random_spots(network, 12, dice);
        const auto places = random_spots(network, 8, dice);
        const std::size_t most = 1 + dice.below(5);
        const std::int32_t limit =
            dice.one_in(2) ? most_cost : static_cast<std::int32_t>(dice.below(3000));
        for (const Heading heading : {Heading::away, Heading::towards}) {
            const SearchGraph graph = search_graph(network, costs, heading);
            const Lists<NearSource> lists = nearest_sources({network, costs, graph, heading},
                                                            sources, places, most, limit, Work{});
            REQUIRE(lists.size() == places.size());
            for (std::size_t p = 0; p < places.size(); ++p) {
                CAPTURE(seed, most, limit, p, heading == Heading::away);
                const Ranked found = ranked_of(lists[p]);
                REQUIRE(found == town.nearest(sources, places[p], heading, most, limit));
                compared += found.size();
            }
        }
    }
    CHECK(compared > 1000);
}
