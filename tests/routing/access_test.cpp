#include "routing/access.h"

#include <catch2/catch.hpp>

#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::count_of;
using test::Routed;

namespace {}  // namespace

TEST_CASE("a parcel is served from the nearest point of the true segment", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-------A
          1
    )"));
    region.road("SA");
    region.parcel('1');
    const Routed routed(region.district);
    const AccessPoint& point = routed.access.access.points[0];
    CHECK(point.road == RoadIndex(0));
    CHECK(point.place.x == Approx(region.at('1').x));
    CHECK(point.place.y == Approx(region.at('S').y));
    CHECK(in_metres(point.off_road) == Approx(100));
    CHECK(point.doubtful);  // farther than 300 ft
    CHECK(routed.access.access.spots[0].along == Approx(200));
    CHECK(routed.access.problems.empty());
}

TEST_CASE("a house on a private drive is served from the drive, in doubt", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            |
            D1
    )"));
    region.road("SAB");
    region.road("AD").access = RoadAccess::private_road;
    region.parcel('1').house.x -= 50;
    Routed routed(region.district);
    CHECK(routed.access.access.points[0].road == RoadIndex(1));
    CHECK(in_metres(routed.access.access.points[0].off_road) == Approx(50));
    CHECK(routed.access.access.points[0].doubtful);
    CHECK(routed.access.problems.empty());  // a road that tankers may use is in reach

    region.district.assumptions.access_reach = feet(500);
    CHECK(count_of(Routed(region.district).access.problems, ProblemId::parcel_no_usable_road) == 1);
    region.district.assumptions.private_roads_usable = true;
    CHECK_FALSE(Routed(region.district).access.access.points[0].doubtful);
}

TEST_CASE("a house between a private drive and a road is served from the road if it is near",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            D1
    )"));
    region.road("SAB");
    region.road("AD").access = RoadAccess::private_road;
    Parcel& parcel = region.parcel('1');
    parcel.house = {region.at('A').x + 20, region.at('A').y - 35};
    CHECK(Routed(region.district).access.access.points[0].road == RoadIndex(0));  // 49 ft farther
    parcel.house.y -= 2;
    CHECK(Routed(region.district).access.access.points[0].road == RoadIndex(1));  // 56 ft farther
}

TEST_CASE("where roads are equally near the one that a tanker may use is taken", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
            D
            |
        S---A
              1
    )"));
    region.road("DA").access = RoadAccess::private_road;
    region.road("SA");
    region.parcel('1').house = {region.at('A').x + 10, region.at('A').y - 10};
    const Routed routed(region.district);
    CHECK(routed.access.access.points[0].road == RoadIndex(1));
    CHECK_FALSE(routed.access.access.points[0].doubtful);
}

TEST_CASE("beyond the access reach there is no road", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A



        1
            2
    )"));
    region.road("SA");
    region.parcel('1');
    region.target('2');
    region.district.assumptions.access_reach = metres(401);
    const Routed in_reach(region.district);
    CHECK(in_reach.access.access.points[0].road.valid());
    CHECK_FALSE(in_reach.access.access.points[1].road.valid());
    CHECK_FALSE(in_reach.access.access.spots[1].valid());
    REQUIRE(in_reach.access.problems.size() == 1);
    CHECK(in_reach.access.problems[0] ==
          Problem{ProblemId::parcel_no_road_in_reach, "targets", "", "2", "", "1316 ft"});
    region.district.assumptions.access_reach = metres(399);
    CHECK(Routed(region.district).access.problems.size() == 2);
}

TEST_CASE("sources, stations and the officer's places snap to roads that vehicles may use",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        A---------B
        S   1   P
        C---------D
    )"));
    region.road("AB").access = RoadAccess::private_road;
    region.road("CD");
    region.source('1').place.y += 40;
    region.dump_site_place('P').place.y += 40;
    region.district.stations[0].place.y += 40;
    const Routed routed(region.district);
    const routing::Access& access = routed.access.access;
    for (const routing::RoadSpot& spot :
         {access.sources[0], access.stations[0], access.dump_site_places[0]}) {
        REQUIRE(spot.valid());
        CHECK(at(routed.network.network.edges, spot.edge).road == RoadIndex(1));
    }
    CHECK(access.sources[0].along == Approx(400));
}

TEST_CASE("a source beyond a bridge that no loaded tanker may cross stands on the road it can use",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        A---B
          1
        S---C
    )"));
    region.road("AB").weight_limit = pounds(20'000);
    region.road("SC");
    region.source('1').place.y += 30;
    const Routed routed(region.district);
    const routing::RoadSpot spot = routed.access.access.sources[0];
    REQUIRE(spot.valid());
    CHECK(at(routed.network.network.edges, spot.edge).road == RoadIndex(1));
}

TEST_CASE("what has no usable road in reach is reported, a source that is only mapped is not",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        A---B




        S  1  2  P
    )"));
    region.road("AB");
    region.source('1');
    region.source('2').standing = Standing::mapped;
    region.dump_site_place('P');
    const Routed routed(region.district);
    CHECK(count_of(routed.access.problems, ProblemId::source_no_road_in_reach) == 1);
    CHECK(count_of(routed.access.problems, ProblemId::station_no_road_in_reach) == 1);
    CHECK(count_of(routed.access.problems, ProblemId::place_no_road_in_reach) == 1);
    CHECK(routed.access.problems.size() == 3);
    CHECK_FALSE(routed.access.access.sources[1].valid());
}

TEST_CASE("one house far away by mistake changes nothing for the others", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-------A
          1   2
    )"));
    region.road("SA");
    region.parcel('1');
    region.parcel('2').house = {1e14, -3e13};
    const Routed routed(region.district);
    CHECK(routed.access.access.points[0].road.valid());
    CHECK_FALSE(routed.access.access.points[1].road.valid());
}
