// Hose from sources to houses against a plain search of every source for every house.
#include <algorithm>
#include <map>
#include <optional>

#include <catch2/catch.hpp>

#include "routing/sites/hose_lays.h"
#include "routing/source_lays.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/routing/slow_ways.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::Routed;
using test::slow_spot;

namespace {

constexpr std::uint64_t lay_seeds = 60;

// Metres of hose, none beyond the reach.
std::optional<double> hose_from(const Routed& routed, const slow::Streets& streets,
                                const FillSitePlace& place, std::size_t served) {
    const routing::Network& network = routed.network.network;
    const routing::RoadSpot from = at(routed.access.access.sources, place.source);
    const routing::RoadSpot to = routed.access.access.spots[served];
    const auto setback = routing::setback_of(routed.district, routed.access.access, served);
    if (!from.valid() || !to.valid() || !setback) {
        return std::nullopt;
    }
    const long way =
        slow::way_between(streets, slow::lengths_in_mm(streets), slow_spot(streets, network, from),
                          slow_spot(streets, network, to));
    const Point road = routing::place_of(routed.district, network, from);
    const double length = static_cast<double>(way) / 1000.0 +
                          in_metres(distance(place.place, road)) + in_metres(*setback);
    return way == slow::never || length > in_metres(routed.district.assumptions.relay_reach)
               ? std::nullopt
               : std::optional(length);
}

}  // namespace

TEST_CASE("hose from sources is as short as a plain search finds, the nearest of each class",
          "[twin]") {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= lay_seeds; ++seed) {
        CAPTURE(seed);
        District district = test::random_district(seed);
        district.assumptions.relay_reach = metres(500);
        Routed routed(district);
        for (std::size_t i = 0; i < routed.fill_sites.size(); ++i) {
            routed.fill_sites[i].strength_class = static_cast<std::uint8_t>(i % 2);
        }
        const slow::Streets streets = slow::streets_of(district);
        const Lists<SourceLay> found =
            routing::find_source_lays(routed.roads(), routed.fill_sites, Work{});
        REQUIRE(found.size() == district.parcels.size() + district.targets.size());
        for (std::size_t served = 0; served < found.size(); ++served) {
            std::map<std::uint8_t, double> nearest;
            for (const FillSitePlace& place : routed.fill_sites) {
                if (const auto hose = hose_from(routed, streets, place, served)) {
                    const auto [known, is_new] = nearest.emplace(place.strength_class, *hose);
                    known->second = std::min(known->second, *hose);
                }
            }
            REQUIRE(found[served].size() == nearest.size());
            double before = 0.0;
            for (const SourceLay& lay : found[served]) {
                const double length = in_metres(lay.length);
                const std::uint8_t strength = at(routed.fill_sites, lay.fill_site).strength_class;
                CHECK(length == Approx(nearest.at(strength)).margin(0.002));
                CHECK(length >= before);
                before = length;
                ++compared;
            }
        }
    }
    CHECK(compared > 100);
}
