// Loops, bridges and lane classes, against a look at what hangs together when a piece is taken
// away.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "routing/driving/road_use.h"
#include "routing/sites/lanes.h"
#include "routing/sites/single_file.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/draws.h"
#include "tests/support/slow_lanes.h"

using namespace farwater;
using test::Dice;
using test::Routed;

namespace {

constexpr std::uint64_t lane_seeds = test::draws(150);
const Length reach = feet(1000);

struct LaneCase {
    explicit LaneCase(std::uint64_t seed)
        : district(test::random_district(seed)),
          routed(district),
          streets(slow::streets_of(district)),
          marks(routing::edges_used_by(
              network(), routing::loaded_use(district, routed.profiles, district.seasons[1]),
              routing::haulers(routed.profiles), routing::Which::all)),
          lanes(network(), marks, reach) {}

    const routing::Network& network() const { return routed.network.network; }

    std::vector<bool> open_without(const std::vector<routing::EdgeIndex>& closed) const {
        std::vector<bool> open(marks.begin(), marks.end());
        for (const routing::EdgeIndex edge : closed) {
            open[edge.position()] = false;
        }
        return open;
    }

    District district;
    Routed routed;
    slow::Streets streets;
    std::vector<std::uint8_t> marks;
    routing::Lanes lanes;
};

std::vector<routing::EdgeIndex> some_edges(Dice& dice, std::size_t of, std::size_t most) {
    std::vector<routing::EdgeIndex> edges;
    for (std::size_t count = dice.below(most + 1); count > 0; --count) {
        edges.emplace_back(dice.below(of));
    }
    return edges;
}

}  // namespace

TEST_CASE("an edge is on a loop, whatever is closed, where its ends are joined without it",
          "[twin]") {
    std::size_t on = 0;
    std::size_t off_by_closing = 0;
    for (std::uint64_t seed = 1; seed <= lane_seeds; ++seed) {
        CAPTURE(seed);
        const LaneCase one(seed);
        Dice dice(seed);
        const std::vector<bool> all_open = one.open_without({});
        for (std::size_t e = 0; e < one.streets.pieces.size(); ++e) {
            const auto closed = some_edges(dice, one.streets.pieces.size(), 4);
            const bool expected = slow::on_loop(one.streets, one.open_without(closed), e);
            REQUIRE(one.lanes.on_loop(routing::EdgeIndex(e), closed) == expected);
            on += expected ? 1U : 0U;
            off_by_closing += !expected && slow::on_loop(one.streets, all_open, e) ? 1U : 0U;
        }
    }
    CHECK(on > test::draws(300));
    CHECK(off_by_closing > test::draws(100));
}

TEST_CASE("lane classes of random places equal those of the slow twin", "[twin]") {
    std::size_t through = 0;
    std::size_t dead_ends = 0;
    for (std::uint64_t seed = 1; seed <= lane_seeds; ++seed) {
        CAPTURE(seed);
        const LaneCase one(seed);
        Dice dice(seed + 1000);
        for (std::size_t e = 0; e < one.streets.pieces.size(); ++e) {
            const auto closed = some_edges(dice, one.streets.pieces.size(), 3);
            const double length = in_metres(one.network().edges[e].length());
            const double along = dice.of(std::vector{0.0, length / 3.0, length});
            const bool expected = slow::drive_through(one.streets, one.open_without(closed),
                                                      {e, along}, in_metres(reach));
            const LaneClass found = one.lanes.at_spot({routing::EdgeIndex(e), along}, closed);
            REQUIRE((found == LaneClass::through) == expected);
            through += expected ? 1U : 0U;
            dead_ends += expected ? 0U : 1U;
        }
    }
    CHECK(through > test::draws(500));
    CHECK(dead_ends > test::draws(500));
}

TEST_CASE("lane classes with turnarounds and origins equal those of the slow twin", "[twin]") {
    std::size_t through = 0;
    std::size_t by_marks = 0;
    std::size_t dead_ends = 0;
    for (std::uint64_t seed = 1; seed <= lane_seeds; ++seed) {
        CAPTURE(seed);
        const LaneCase one(seed);
        Dice dice(seed + 2000);
        slow::LaneMarks marks;
        marks.from_anywhere = false;
        std::vector<routing::RoadSpot> turnarounds;
        std::vector<routing::RoadSpot> origins;
        const auto some_spots = [&](std::vector<slow::Spot>& slow_spots,
                                    std::vector<routing::RoadSpot>& spots) {
            for (std::size_t count = dice.below(5); count > 0; --count) {
                const std::size_t e = dice.below(one.streets.pieces.size());
                const double length = in_metres(one.network().edges[e].length());
                const double along = dice.of(std::vector{0.0, length / 3.0, length / 2.0, length});
                slow_spots.push_back({e, along});
                spots.push_back({routing::EdgeIndex(e), along});
            }
        };
        some_spots(marks.turnarounds, turnarounds);
        some_spots(marks.origins, origins);
        const routing::Lanes lanes(one.network(), one.marks, reach, turnarounds);
        const routing::Waymarks from(one.network(), origins);
        for (std::size_t e = 0; e < one.streets.pieces.size(); ++e) {
            CAPTURE(e);
            const auto closed = some_edges(dice, one.streets.pieces.size(), 3);
            const double length = in_metres(one.network().edges[e].length());
            const double along = dice.of(std::vector{0.0, length / 3.0, length});
            const std::vector<bool> open = one.open_without(closed);
            const bool expected =
                slow::drive_through(one.streets, open, {e, along}, in_metres(reach), marks);
            const LaneClass found = lanes.at_spot({routing::EdgeIndex(e), along}, closed, &from);
            REQUIRE((found == LaneClass::through) == expected);
            through += expected ? 1U : 0U;
            dead_ends += expected ? 0U : 1U;
            const bool without =
                slow::drive_through(one.streets, open, {e, along}, in_metres(reach));
            by_marks += expected && !without ? 1U : 0U;
        }
    }
    CHECK(through > test::draws(500));
    CHECK(dead_ends > test::draws(500));
    CHECK(by_marks > test::draws(100));
}

TEST_CASE("the roads closed for a hose lay are those under the shortest way", "[twin]") {
    std::size_t seen = 0;
    for (std::uint64_t seed = 1; seed <= lane_seeds; ++seed) {
        CAPTURE(seed);
        const LaneCase one(seed);
        const routing::DumpSites& sites = one.routed.dump_sites;
        std::size_t lay = 0;
        for (std::size_t served = 0; served < sites.hose_lays.size(); ++served) {
            for (const HoseLay& hose : sites.hose_lays[served]) {
                const std::uint32_t asked = sites.lane_cases.of_lay[lay++];
                REQUIRE(sites.lane_cases.site[asked] == hose.dump_site.position());
                const auto closed = sites.lane_cases.closed[asked];
                const routing::RoadSpot house = one.routed.access.access.spots[served];
                const routing::RoadSpot spot = sites.spots[hose.dump_site.position()];
                const auto under =
                    slow::under_the_way(one.streets, {spot.edge.position(), spot.along},
                                        {house.edge.position(), house.along});
                REQUIRE(std::ranges::count(closed, house.edge) == 1);
                for (const routing::EdgeIndex edge : closed) {
                    REQUIRE(under[edge.position()]);  // of equal ways one is taken
                }
                ++seen;
            }
        }
    }
    CHECK(seen > test::draws(500));
}

TEST_CASE("how far tankers come in single file is what the slow twin walks", "[twin]") {
    std::size_t alone = 0;
    std::size_t passing = 0;
    for (std::uint64_t seed = 1; seed <= lane_seeds; ++seed) {
        CAPTURE(seed);
        LaneCase one(seed);
        Dice dice(seed + 3000);
        for (Road& road : one.district.roads) {
            road.width = dice.of(
                std::vector<std::optional<Length>>{feet(12), feet(12), feet(16), std::nullopt});
        }
        const Season& season = one.district.seasons[1];
        const routing::SingleFile roads(one.district, one.network(), one.marks, one.routed.profiles,
                                        season);
        std::vector<bool> narrow;
        for (const slow::Piece& piece : one.streets.pieces) {
            const Road& road = one.district.roads[piece.road];
            narrow.push_back(road.width
                                 ? *road.width < feet(16)
                                 : road.kind == RoadClass::narrow || road.kind == RoadClass::drive);
        }
        const auto minutes_on = [&](std::size_t piece, double metres_on) {
            const Road& road = one.district.roads[one.streets.pieces[piece].road];
            double slowest = 1e9;
            for (const Profile& profile : one.routed.profiles) {
                if (profile.kind == UnitKind::tanker) {
                    slowest = std::min(slowest, slow::miles_per_hour(road, profile, season, true,
                                                                     one.district.assumptions));
                }
            }
            const double tenths = metres_on / 1609.344 / slowest * 36'000.0;
            return std::max(1.0, std::ceil(tenths - 1e-6)) / 600.0;
        };
        for (std::size_t e = 0; e < one.streets.pieces.size(); ++e) {
            CAPTURE(e);
            const auto closed = some_edges(dice, one.streets.pieces.size(), 3);
            const double length = in_metres(one.network().edges[e].length());
            const double along = dice.of(std::vector{0.0, length / 3.0, length});
            const double expected = slow::single_file_minutes(one.streets, one.open_without(closed),
                                                              narrow, minutes_on, {e, along});
            const double found = in_minutes(roads.way_of({routing::EdgeIndex(e), along}, closed));
            REQUIRE(found == Approx(expected).margin(1e-6));
            alone += expected > 0.0 ? 1U : 0U;
            passing += expected > 0.0 ? 0U : 1U;
        }
    }
    CHECK(alone > 300);
    CHECK(passing > 300);
}
