// Legs by the linear travel-time rules against the slow twin's shortest ways.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/routing/slow_ways.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::cost_of;
using test::Routed;
using test::slow_spot;
using test::within;

namespace {

constexpr std::uint64_t rule_seeds = 150;

}  // namespace

TEST_CASE("legs by the linear rules are the shortest ways of the slow twin, made minutes",
          "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= rule_seeds; ++seed) {
        District district = test::random_district(seed);
        const bool by_leg = seed % 2 == 0;
        district.travel_time =
            by_leg ? TravelTime::linear_per_leg : TravelTime::linear_per_round_trip;
        const Routed routed(district);
        const slow::Streets streets = slow::streets_of(district);
        const Season& season = district.seasons[0];
        const RoundTrips trips = routed.round_trips();
        const auto minutes_of = [&](long way) {
            const double standing = by_leg ? 390.0 : 195.0;
            const double tenths =
                standing + std::ceil(static_cast<double>(way) * 1020.0 / 1609344.0 - 1e-3);
            return way == slow::never ? slow::never : within(static_cast<long>(tenths), district);
        };
        for (std::size_t p = 0; p < routed.profiles.size(); ++p) {
            const Profile& profile = routed.profiles[p];
            if (profile.kind != UnitKind::tanker) {
                continue;
            }
            const auto loaded = slow::open_lengths(district, streets, profile, season, true);
            const auto empty = slow::open_lengths(district, streets, profile, season, false);
            for (std::size_t d = 0; d < trips.dump_sites.size(); d += 3) {
                const slow::Spot site =
                    slow_spot(streets, routed.network.network, routed.dump_sites.spots[d]);
                for (std::size_t f = 0; f < district.sources.size(); ++f) {
                    const routing::RoadSpot source = routed.access.access.sources[f];
                    if (!source.valid()) {
                        continue;
                    }
                    const slow::Spot spot = slow_spot(streets, routed.network.network, source);
                    const long there = minutes_of(slow::way_between(streets, loaded, spot, site));
                    const long back = minutes_of(slow::way_between(streets, empty, site, spot));
                    const bool round = there < slow::never && back < slow::never;
                    const LegTimes legs =
                        test::legs_between(trips, DumpSiteIndex(d), f, ProfileIndex(p));
                    CAPTURE(seed, p, d, f);
                    REQUIRE(cost_of(legs.loaded) == (round ? there : slow::never));
                    REQUIRE(cost_of(legs.empty) == (round ? back : slow::never));
                    compared += round ? 1U : 0U;
                }
            }
        }
    }
    CHECK(compared > 1000);
}
