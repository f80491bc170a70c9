// Ways out and back on different roads, against all share-outs of small random networks.
#include <catch2/catch.hpp>

#include "routing/loop_trips.h"
#include "routing/trips/disjoint_pair.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"
#include "tests/support/slow_loops.h"

using namespace farwater;
using test::Dice;
using test::Routed;

namespace {

constexpr std::int64_t far = 4 * 18'000;  // tenths of a second, both ways in both directions

// Up to ten straight roads between the nine corners of a crooked grid, a source and an officer's
// place on roads or at corners. 10 m/s loaded and empty.
District small_streets(std::uint64_t seed, bool one_ways) {
    Dice dice(seed);
    test::AsciiRegion region("S");
    District& district = region.district;
    std::vector<Point> corners;
    for (std::size_t i = 0; i < 9; ++i) {
        corners.push_back({500.0 * static_cast<double>(i % 3) + dice.between(-100, 100),
                           500.0 * static_cast<double>(i / 3) + dice.between(-100, 100)});
    }
    std::vector<std::pair<std::size_t, std::size_t>> sides;
    for (std::size_t i = 0; i < 9; ++i) {
        if (i % 3 < 2) {
            sides.emplace_back(i, i + 1);
        }
        if (i < 6) {
            sides.emplace_back(i, i + 3);
        }
    }
    sides = dice.shuffled(sides);
    sides.resize(8 + dice.below(3));
    for (const auto& [from, to] : sides) {
        Road& road = region.road("");
        road.line = {corners[from], corners[to]};
        if (one_ways && dice.one_in(3)) {
            road.one_way = OneWay::forward;
        }
    }
    const auto somewhere = [&] {
        const Road& road = district.roads[dice.below(district.roads.size())];
        const double along = in_metres(length_of(road.line));
        return routing::point_along(road.line, dice.of(std::vector{0.0, 0.25, 0.6, 1.0}) * along);
    };
    region.station('S').place = corners[0];
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.source('S').place = somewhere();
    region.dump_site_place('S').place = somewhere();
    return district;
}

struct LoopCase {
    explicit LoopCase(const District& given)
        : district(given),
          routed(district),
          streets(slow::streets_of(district)),
          profile(routed.profile_of(UnitKind::tanker)),
          empty(routing::drive_costs(district, network(), at(routed.profiles, profile),
                                     district.seasons[0], routing::Load::empty)),
          loaded(routing::drive_costs(district, network(), at(routed.profiles, profile),
                                      district.seasons[0], routing::Load::loaded)),
          costs(routing::pair_costs(network(), empty, loaded)),
          graph(routing::search_graph(network(), costs.either, routing::Heading::towards)),
          pairs(network()) {
        pairs.aim(costs, graph, source(), 2 * 18'000);
    }

    const routing::Network& network() const { return routed.network.network; }
    routing::RoadSpot source() const { return routed.access.access.sources[0]; }
    routing::RoadSpot place() const { return routed.dump_sites.spots[0]; }

    // Closed edges stand for closed pieces: both are numbered by road, then along it.
    std::optional<long> expected(const std::vector<routing::EdgeIndex>& closed) const {
        std::vector<bool> open(streets.pieces.size(), true);
        for (const routing::EdgeIndex edge : closed) {
            open[edge.position()] = false;
        }
        const Profile& vehicles = at(routed.profiles, profile);
        const Season& season = district.seasons[0];
        return slow::out_and_back(
            streets, open, slow::drive_times(district, streets, vehicles, season, false),
            slow::drive_times(district, streets, vehicles, season, true),
            {place().edge.position(), place().along}, {source().edge.position(), source().along});
    }

    routing::LoopTrip loop() const {
        const routing::WantedLoop wanted{SeasonIndex(0), profile, SourceIndex(0), DumpSiteIndex(0)};
        return routing::loop_trips(routed.roads(), routed.dump_sites, std::span(&wanted, 1),
                                   routed.work)[0];
    }

    const District& district;
    Routed routed;
    slow::Streets streets;
    ProfileIndex profile;
    routing::EdgeCosts empty, loaded;
    routing::PairCosts costs;
    routing::SearchGraph graph;
    routing::DisjointPairs pairs;
};

bool at_one_place(const LoopCase& one) {
    return distance(routing::place_of(one.district, one.network(), one.place()),
                    routing::place_of(one.district, one.network(), one.source())) < metres(0.01);
}

bool inside_closed(const LoopCase& one, routing::RoadSpot spot,
                   const std::vector<routing::EdgeIndex>& closed) {
    const double length = in_metres(at(one.network().edges, spot.edge).length());
    return spot.along > 0.0 && spot.along < length && std::ranges::count(closed, spot.edge) > 0;
}

}  // namespace

TEST_CASE("the way out and back without a common road is the least of all share-outs", "[twin]") {
    std::size_t found = 0;
    std::size_t none = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const District district = small_streets(seed, false);
        LoopCase one(district);
        REQUIRE(one.streets.pieces.size() == one.network().edges.size());
        if (at_one_place(one)) {
            continue;
        }
        Dice dice(seed + 500);
        for (std::size_t closing = 0; closing < 3; ++closing) {
            std::vector<routing::EdgeIndex> closed;
            for (std::size_t i = 0; i < closing; ++i) {
                closed.emplace_back(dice.below(one.network().edges.size()));
            }
            if (inside_closed(one, one.place(), closed) ||
                inside_closed(one, one.source(), closed)) {
                CHECK_FALSE(one.pairs.from(one.place(), closed, far).has_value());
                continue;
            }
            const auto expected = one.expected(closed);
            const auto pair = one.pairs.from(one.place(), closed, far);
            REQUIRE(pair.has_value() == expected.has_value());
            if (pair) {
                REQUIRE(pair->out + pair->back == *expected);
                REQUIRE(in_metres(pair->length) <= static_cast<double>(*expected) + 1e-6);
                REQUIRE(in_metres(pair->length) >= static_cast<double>(*expected) - 20.0);
            }
            found += pair ? 1U : 0U;
            none += pair ? 0U : 1U;
            if (closing == 0) {
                const routing::LoopTrip loop = one.loop();
                REQUIRE(loop.found == expected.has_value());
                CHECK(in_tenths(loop.empty + loop.loaded) == expected.value_or(0));
            }
        }
    }
    CHECK(found > 80);
    CHECK(none > 80);
}

TEST_CASE("with one-way roads a loop that is found can be driven, and few are missed", "[twin]") {
    std::size_t found = 0;
    std::size_t best = 0;
    std::size_t missed = 0;
    for (std::uint64_t seed = 1; seed <= 250; ++seed) {
        CAPTURE(seed);
        const District district = small_streets(seed, true);
        LoopCase one(district);
        if (at_one_place(one)) {
            continue;
        }
        const auto expected = one.expected({});
        const auto pair = one.pairs.from(one.place(), {}, far);
        REQUIRE((!pair || expected));
        if (pair) {
            REQUIRE(pair->out + pair->back >= *expected);
            best += pair->out + pair->back == *expected ? 1U : 0U;
        }
        found += pair ? 1U : 0U;
        missed += expected && !pair ? 1U : 0U;
    }
    CAPTURE(found, best, missed);
    CHECK(found > 30);
    CHECK(best * 10 >= found * 9);
    CHECK(missed * 5 <= found);
}
