// What hose takes from a dump site, on drawn roads.
#include <catch2/catch.hpp>

#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

const HoseLay& lay_from(const RoundTrips& trips, std::size_t parcel, DumpSiteIndex dump_site) {
    const auto lays = trips.hose_lays[parcel];
    const auto lay = std::ranges::find(lays, dump_site, &HoseLay::dump_site);
    REQUIRE(lay != lays.end());
    return *lay;
}

AsciiRegion with_two_places(const char* map) {
    AsciiRegion region(map);
    region.station('S');
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.source('1');
    region.dump_site_place('P');
    region.dump_site_place('Q');
    region.parcel('H').house = {region.at('H').x, region.at('H').y + 30};
    region.district.assumptions.hose_reach = feet(1500);
    return region;
}

}  // namespace

TEST_CASE("behind the house on a dead end no tanker comes to the dump site, before it all do",
          "[map]") {
    AsciiRegion region = with_two_places("1-S--A--P--H--Q-B");
    region.road("1SAPHQB");
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const ProfileIndex tanker = routed.profile_of(UnitKind::tanker);
    const HoseLay& before = lay_from(trips, 0, DumpSiteIndex(0));
    CHECK_FALSE(before.approach.valid());  // hose takes nothing from it
    CHECK(trips.fill_trips[before.ways().position()].size() == 1);
    const HoseLay& behind = lay_from(trips, 0, DumpSiteIndex(1));
    REQUIRE(behind.approach.valid());
    CHECK(trips.fill_trips[behind.ways().position()].empty());
    CHECK_FALSE(reachable(trips.tanker_from_station(tanker, StationIndex(0), behind.ways())));
    CHECK(reachable(trips.from_station(tanker, StationIndex(0), behind.dump_site)));
}

TEST_CASE("where roads lead round the house tankers come behind it on the longer way", "[map]") {
    AsciiRegion region = with_two_places(R"(
        1-S--A--P--H--Q--B
             |           |
             C-----------D
    )");
    region.road("1SAPHQB");
    region.road("ACDB");
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const ProfileIndex tanker = routed.profile_of(UnitKind::tanker);
    const HoseLay& behind = lay_from(trips, 0, DumpSiteIndex(1));
    REQUIRE(behind.approach.valid());
    const auto round = trips.fill_trips[behind.ways().position()];
    REQUIRE(round.size() == 1);
    const LegTimes open = test::legs_between(trips, DumpSiteIndex(1), 0, tanker);
    CHECK(round[0].legs[tanker.position()].loaded > open.loaded);
    CHECK(round[0].legs[tanker.position()].empty > open.empty);
    CHECK_FALSE(lay_from(trips, 0, DumpSiteIndex(0)).approach.valid());
}

TEST_CASE("a house whose only dump site lies behind it gets a place before it", "[map]") {
    AsciiRegion region(R"(
        1-S--A--H--Q-B
    )");
    region.station('S');
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.road("1SAHQB");
    region.source('1');
    region.dump_site_place('Q');
    region.parcel('H').house = {region.at('H').x, region.at('H').y + 30};
    region.district.assumptions.dump_site_spacing = feet(5000);
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    bool served = false;
    for (const HoseLay& lay : trips.hose_lays[0]) {
        served = served || !trips.fill_trips[lay.ways().position()].empty();
    }
    CHECK(served);
}
