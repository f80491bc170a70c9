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

// The same over the ground of the one parcel that the place is for.
std::optional<double> over_ground(const District& district, const FillSitePlace& place) {
    const Assumptions& rules = district.assumptions;
    const double straight =
        in_metres(distance(place.place, at(district.parcels, place.only_for).house));
    return straight > in_metres(rules.off_road_hose)
               ? std::nullopt
               : std::optional(straight * rules.setback_factor + in_metres(rules.setback_extra));
}

// Per list that a place is kept in: a strength class, or behind them a source of the parcel's own.
std::map<std::size_t, double> slow_lays(const Routed& routed, const slow::Streets& streets,
                                        std::size_t served) {
    std::map<std::size_t, double> nearest;
    for (std::size_t i = 0; i < routed.fill_sites.size(); ++i) {
        const FillSitePlace& place = routed.fill_sites[i];
        if (place.only_for.valid() && place.only_for.position() != served) {
            continue;
        }
        std::optional<double> hose = hose_from(routed, streets, place, served);
        if (place.only_for.valid()) {
            const auto over = over_ground(routed.district, place);
            hose = over && hose ? std::min(*over, *hose) : over ? over : hose;
        }
        if (hose) {
            const std::size_t list = place.only_for.valid() ? 256 + i : place.strength_class;
            const auto [known, is_new] = nearest.emplace(list, *hose);
            known->second = std::min(known->second, *hose);
        }
    }
    return nearest;
}

ParcelIndex owner_near(const District& district, Point place) {
    const auto nearest = std::ranges::min_element(district.parcels, {}, [&](const Parcel& parcel) {
        return distance_squared(parcel.house, place);
    });
    return ParcelIndex(static_cast<std::size_t>(nearest - district.parcels.begin()));
}

}  // namespace

TEST_CASE("hose from sources is as short as a plain search finds, the nearest of each class",
          "[twin]") {
    int compared = 0;
    int own = 0;
    for (std::uint64_t seed = 1; seed <= lay_seeds; ++seed) {
        CAPTURE(seed);
        test::Dice dice(seed);
        District district = test::random_district(seed);
        district.assumptions.relay_reach = metres(500);
        district.assumptions.off_road_hose = metres(200);
        Routed routed(district);
        for (std::size_t i = 0; i < routed.fill_sites.size(); ++i) {
            routed.fill_sites[i].strength_class = static_cast<std::uint8_t>(i % 2);
            if (dice.one_in(3)) {
                routed.fill_sites[i].only_for = owner_near(district, routed.fill_sites[i].place);
            }
        }
        const slow::Streets streets = slow::streets_of(district);
        const Lists<SourceLay> found =
            routing::find_source_lays(routed.roads(), routed.fill_sites, Work{});
        REQUIRE(found.size() == district.parcels.size() + district.targets.size());
        for (std::size_t served = 0; served < found.size(); ++served) {
            const std::map<std::size_t, double> nearest = slow_lays(routed, streets, served);
            REQUIRE(found[served].size() == nearest.size());
            double before = 0.0;
            for (const SourceLay& lay : found[served]) {
                const double length = in_metres(lay.length);
                const FillSitePlace& place = at(routed.fill_sites, lay.fill_site);
                const std::size_t list =
                    place.only_for.valid() ? 256 + lay.fill_site.position() : place.strength_class;
                CHECK(length == Approx(nearest.at(list)).margin(0.002));
                CHECK(length >= before);
                before = length;
                ++compared;
                own += place.only_for.valid() ? 1 : 0;
            }
        }
    }
    CHECK(compared > 100);
    CHECK(own > 20);
}
