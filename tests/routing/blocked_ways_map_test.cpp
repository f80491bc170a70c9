// Ways past the burning house, on drawn roads.
#include <catch2/catch.hpp>

#include "routing/blocked_ways.h"
#include "routing/route_lines.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

// Whether the loaded way from source 1 to the dump site runs over the parcel's hose.
bool over_hose(const Routed& routed, std::size_t parcel, DumpSiteIndex dump_site) {
    const auto lays = routed.dump_sites.hose_lays[parcel];
    const auto lay = std::ranges::find(lays, dump_site, &HoseLay::dump_site);
    REQUIRE(lay != lays.end());
    const std::uint32_t number =
        routed.dump_sites.hose_lays.begin[parcel] + static_cast<std::uint32_t>(lay - lays.begin());
    const routing::HoseOnRoads hose(routed.network.network, routed.dump_sites,
                                    routed.dump_sites.lane_cases.of_lay[number]);
    const WantedRoute wanted{RouteKind::loaded,
                             SeasonIndex(0),
                             routed.profile_of(UnitKind::tanker),
                             dump_site,
                             SourceIndex(0),
                             StationIndex(),
                             no_time};
    bool over = false;
    std::size_t told = 0;
    routing::route_lines(routed.roads(), routed.dump_sites, std::span(&wanted, 1), routed.work,
                         [&](std::size_t, const routing::Way& way) {
                             ++told;
                             over = hose.bars_any(way);
                         });
    REQUIRE(told == 1);
    return over;
}

}  // namespace

TEST_CASE("behind the house on a dead end tankers would pass the house, before it they do not",
          "[map]") {
    AsciiRegion region(R"(
        1-S--A--P--H--Q-B
    )");
    region.station('S');
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.road("1SAPHQB");
    region.source('1');
    region.dump_site_place('P');
    region.dump_site_place('Q');
    region.parcel('H').house = {region.at('H').x, region.at('H').y + 30};
    region.district.assumptions.hose_reach = feet(1500);
    const Routed routed(region.district);
    CHECK_FALSE(over_hose(routed, 0, DumpSiteIndex(0)));
    CHECK(over_hose(routed, 0, DumpSiteIndex(1)));
}

TEST_CASE("hose over a junction closes its roads, not those that leave it", "[map]") {
    AsciiRegion region(R"(
        1-S--A--P--J--Q-B
                   |
                   H
                   |
                   C
    )");
    region.station('S');
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.road("1SAPJ");
    region.road("JQB");
    region.road("JHC");
    region.source('1');
    region.dump_site_place('P');
    region.dump_site_place('Q');
    region.parcel('H').house = {region.at('H').x + 30, region.at('H').y};
    region.district.assumptions.hose_reach = feet(2500);
    const Routed routed(region.district);
    CHECK_FALSE(over_hose(routed, 0, DumpSiteIndex(0)));
    CHECK(over_hose(routed, 0, DumpSiteIndex(1)));  // the way comes where the hose goes
}
