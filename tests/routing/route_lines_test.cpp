// Which way a trip goes, on drawn maps.
#include "routing/route_lines.h"

#include <catch2/catch.hpp>

#include "routing/drive_table.h"
#include "routing/stops.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

AsciiRegion with_fleet_and_places(AsciiRegion region) {
    region = with_fleet(std::move(region));
    region.source('1');
    region.dump_site_place('P');
    return region;
}

RouteLine route(const AsciiRegion& region, RouteKind kind, DriveTime at_most = no_time) {
    const Routed routed(region.district);
    const WantedRoute wanted{kind,
                             SeasonIndex(0),
                             routed.profile_of(UnitKind::tanker),
                             DumpSiteIndex(0),
                             SourceIndex(0),
                             StationIndex(0),
                             at_most,
                             true};
    return routing::route_lines(routed.roads(), routed.dump_sites, std::span(&wanted, 1),
                                routed.work)
        .front();
}

}  // namespace

TEST_CASE("a way begins and ends at the points on the road and has its corners", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-1-A
            |
            P
            |
            B
    )"));
    region.road("SA");
    region.road("BA");
    const RouteLine loaded = route(region, RouteKind::loaded);
    CHECK(loaded.line == Polyline{region.at('1'), region.at('A'), region.at('P')});
    CHECK(in_metres(loaded.length) == Approx(400.0));
    CHECK(in_tenths(loaded.time) == 400);
    CHECK(loaded.roads == std::vector{RoadIndex(0), RoadIndex(1)});
    const RouteLine empty = route(region, RouteKind::empty);
    CHECK(empty.line == Polyline{region.at('P'), region.at('A'), region.at('1')});
    const RouteLine response = route(region, RouteKind::response);
    CHECK(response.line.front() == region.at('S'));
    CHECK(in_tenths(response.time) == 600);
}

TEST_CASE("there and back differ where a road is one-way", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        A--1--P---B
        |         |
        S---------C
    )"));
    region.road("AB").one_way = OneWay::forward;
    region.road("BCSA");
    CHECK(route(region, RouteKind::loaded).line == Polyline{region.at('1'), region.at('P')});
    CHECK(route(region, RouteKind::empty).line == Polyline{region.at('P'), region.at('B'),
                                                           region.at('C'), region.at('S'),
                                                           region.at('A'), region.at('1')});
}

TEST_CASE("of equally fast ways the shorter is taken", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
            B---C
            |   |
        S-1-A---D-P-E
    )"));
    region.road("SA");
    region.road("ABCD");  // twice as far as AD and twice as fast
    region.road("DE");
    CHECK(in_tenths(route(region, RouteKind::loaded).time) == 200 + 800 + 200);
    region.road("AD").posted_speed = test::ten_metres_a_second() * 0.5;
    const RouteLine found = route(region, RouteKind::loaded);
    CHECK(in_tenths(found.time) == 200 + 800 + 200);
    CHECK(in_metres(found.length) == Approx(200.0 + 400.0 + 200.0));
    CHECK(found.roads == std::vector{RoadIndex(0), RoadIndex(3), RoadIndex(2)});
    region.district.roads[3].posted_speed = test::ten_metres_a_second() * 0.49;
    CHECK(in_metres(route(region, RouteKind::loaded).length) == Approx(200.0 + 800.0 + 200.0));
}

TEST_CASE("what is driven on posted limits does not rest on defaults", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-1-A---B-P-C
    )"));
    region.road("SA");
    region.road("AB").posted_speed = test::ten_metres_a_second() * 0.5;
    region.road("BC");
    const RouteLine way = route(region, RouteKind::loaded);
    CHECK(in_tenths(way.time) == 200 + 800 + 200);
    CHECK(in_tenths(way.on_defaults) == 400);
}

TEST_CASE("bridges without a posted weight are named, those with one are not", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-1-A-B-C-D-P-E
    )"));
    region.road("SA");
    region.road("AB").bridge = true;
    region.road("BC");
    Road& posted = region.road("CD");
    posted.bridge = true;
    posted.weight_limit = pounds(90'000);
    region.road("DE");
    CHECK(route(region, RouteKind::empty).unposted_bridges == std::vector{RoadIndex(1)});
}

TEST_CASE("no way, or none within the time, has no time and no line", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-1-A   B-P-C
    )"));
    region.road("SA");
    region.road("BC");
    CHECK_FALSE(reachable(route(region, RouteKind::loaded).time));
    region.road("AB");
    CHECK(in_tenths(route(region, RouteKind::loaded, tenths_of_second(800)).time) == 800);
    CHECK_FALSE(reachable(route(region, RouteKind::loaded, tenths_of_second(799)).time));
}

TEST_CASE("source and dump site at one place: no time, no line, no division", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-P-1-A
    )"));
    region.road("SA");
    region.district.dump_site_places[0].place = region.at('1');
    const RouteLine way = route(region, RouteKind::loaded);
    CHECK(way.time == DriveTime{});
    CHECK(way.line.empty());
}

TEST_CASE("a stop is on the nearest road that the vehicle may use", "[map]") {
    AsciiRegion region = with_fleet_and_places(AsciiRegion(R"(
        S-1-----A
            x
        B-------C P
    )"));
    region.road("SA").access = RoadAccess::closed;
    region.road("BC");
    const Routed routed(region.district);
    const Point places[] = {region.at('x'), {region.at('x').x, region.at('x').y + 90'000}};
    const auto stops = routing::stops_near(region.district, routed.network.network, places,
                                           at(routed.profiles, routed.profile_of(UnitKind::tanker)),
                                           region.district.seasons[0], Work{});
    REQUIRE(stops[0].valid());
    CHECK(routing::place_of(region.district, routed.network.network, stops[0]).y ==
          Approx(region.at('B').y));
    CHECK_FALSE(stops[1].valid());
}
