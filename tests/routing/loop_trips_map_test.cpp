// Loops on drawn roads. 100 m take 10 seconds.
#include <cmath>

#include <catch2/catch.hpp>

#include "routing/loop_trips.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

routing::LoopTrip loop_from(const Routed& routed, DumpSiteIndex dump_site,
                            std::uint32_t lane_case = routing::WantedLoop::nothing_closed) {
    const routing::WantedLoop wanted{SeasonIndex(0), routed.profile_of(UnitKind::tanker),
                                     SourceIndex(0), dump_site, lane_case};
    return routing::loop_trips(routed.roads(), routed.dump_sites, std::span(&wanted, 1),
                               routed.work)[0];
}

}  // namespace

TEST_CASE("on a ring tankers go out one way and come back the other", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        P-----B
        |     |
        C-----1---D
    )"),
                                    'P');
    region.road("PB1CP");
    region.road("1D");
    region.source('1');
    region.dump_site_place('P');
    const Routed routed(region.district);
    const routing::LoopTrip loop = loop_from(routed, DumpSiteIndex(0));
    REQUIRE(loop.found);
    CHECK(in_tenths(loop.empty) == 800);
    CHECK(in_tenths(loop.loaded) == 800);
    CHECK(in_metres(loop.length) == Approx(1600));
}

TEST_CASE("where the other way round is longer the loop costs the difference", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        P--1----B
        |       |
        |       |
        C-------D
    )"),
                                    'P');
    region.road("P1BDCP");
    region.source('1');
    region.dump_site_place('P');
    const Routed routed(region.district);
    const routing::LoopTrip loop = loop_from(routed, DumpSiteIndex(0));
    REQUIRE(loop.found);
    CHECK(in_metres(loop.length) == Approx(2200));  // once round; there and back is 600
    CHECK(in_tenths(loop.empty + loop.loaded) == 2200);
}

TEST_CASE("a loop that takes far longer than the plain round trip is none", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        P--1----B
        |       |
        |       |
        C-------D
    )"),
                                    'P');
    region.road("P1BDCP");
    region.source('1');
    region.dump_site_place('P');
    const Routed routed(region.district);
    routing::WantedLoop wanted{SeasonIndex(0), routed.profile_of(UnitKind::tanker), SourceIndex(0),
                               DumpSiteIndex(0)};
    wanted.plain = tenths_of_second(600);
    const auto found = [&] {
        return routing::loop_trips(routed.roads(), routed.dump_sites, std::span(&wanted, 1),
                                   routed.work)[0]
            .found;
    };
    CHECK(found());  // 220 seconds round, 60 there and back
    region.district.assumptions.speed_paved =
        mph(in_mph(region.district.assumptions.speed_paved) / 2);
    wanted.plain = tenths_of_second(1200);
    CHECK_FALSE(found());  // 440 seconds round, 120 and 300 more are allowed
}

TEST_CASE("on a spur, and at the end of one before a ring, there is no loop", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        P---A---B
            |   |
            C---1
    )"),
                                    'P');
    region.road("PA");
    region.road("AB1CA");
    region.source('1');
    region.dump_site_place('P');
    region.dump_site_place('A');
    const Routed routed(region.district);
    CHECK_FALSE(loop_from(routed, DumpSiteIndex(0)).found);
    CHECK(loop_from(routed, DumpSiteIndex(1)).found);
    AsciiRegion spur = with_fleet(AsciiRegion("P------1"), 'P');
    spur.road("P1");
    spur.source('1');
    spur.dump_site_place('P');
    CHECK_FALSE(loop_from(Routed(spur.district), DumpSiteIndex(0)).found);
}

TEST_CASE("a road drawn as two one-way lines is a loop, one of them alone is not", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
          A-----B
        P         1
          C-----D
    )"),
                                    'P');
    region.road("PAB1").one_way = OneWay::forward;
    region.road("1DCP").one_way = OneWay::forward;
    region.source('1');
    region.dump_site_place('P');
    const Routed routed(region.district);
    const routing::LoopTrip loop = loop_from(routed, DumpSiteIndex(0));
    REQUIRE(loop.found);
    const LegTimes legs = test::legs_between(routed.round_trips(), DumpSiteIndex(0), 0,
                                             routed.profile_of(UnitKind::tanker));
    CHECK(in_tenths(loop.empty) == in_tenths(legs.empty));
    CHECK(in_tenths(loop.loaded) == in_tenths(legs.loaded));
    region.district.roads[1].one_way = OneWay::both;
    CHECK(loop_from(Routed(region.district), DumpSiteIndex(0)).found);
    region.district.roads[1].one_way = OneWay::forward;
    region.district.roads[0].one_way = OneWay::backward;
    CHECK_FALSE(loop_from(Routed(region.district), DumpSiteIndex(0)).found);
}

TEST_CASE("the shortest way is given up where it would cut the other one in two", "[map]") {
    // P-A-B-1 is the shortest; without it there are only P-C-B and A-D-1, which do not meet.
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        P--A       D

           B--1

        C
    )"),
                                    'P');
    region.road("PA");
    region.road("AB");
    region.road("B1");
    region.road("PCB");
    region.road("AD1");
    region.source('1');
    region.dump_site_place('P');
    const routing::LoopTrip loop = loop_from(Routed(region.district), DumpSiteIndex(0));
    REQUIRE(loop.found);
    const double by_d = 300 + 800 + std::hypot(500, 200);
    const double by_c = 400 + std::hypot(300, 200) + 300;
    CHECK(in_metres(loop.length) == Approx(by_c + by_d));
}

TEST_CASE("hose along the loop takes it away, hose along a third road does not", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        H---P---B
            |   |
            |   |
            C---1
    )"),
                                    'C');
    region.road("HP");
    region.road("PB1CP");
    region.source('1');
    region.dump_site_place('P');
    region.parcel('H').house = {region.at('P').x - 200, region.at('P').y + 30};
    region.parcel('B').house = {region.at('P').x + 200, region.at('P').y + 30};
    const Routed routed(region.district);
    const auto loop_for = [&](std::size_t parcel) {
        const auto lays = routed.dump_sites.hose_lays[parcel];
        REQUIRE_FALSE(lays.empty());
        REQUIRE(lays[0].dump_site == DumpSiteIndex(0));  // the officer's place comes first
        const std::uint32_t lay = routed.dump_sites.hose_lays.begin[parcel];
        return loop_from(routed, DumpSiteIndex(0), routed.dump_sites.lane_cases.of_lay[lay]);
    };
    CHECK(loop_for(0).found);
    CHECK_FALSE(loop_for(1).found);
    CHECK(loop_from(routed, DumpSiteIndex(0)).found);
}
