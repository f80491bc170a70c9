#include "routing/drive_times.h"

#include <algorithm>
#include <array>
#include <span>

#include <catch2/catch.hpp>

#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

// The legs between the officer's only place and the only source, for the (first) tanker profile.
LegTimes legs(const AsciiRegion& region) {
    const Routed routed(region.district);
    return test::legs_between(routed.round_trips(), DumpSiteIndex(0), 0,
                              routed.profile_of(UnitKind::tanker));
}

}  // namespace

TEST_CASE("a shuttle drives between the points on the roads, not their junctions", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S--1--A-----B--P--C
    )"));
    region.road("SA");
    region.road("AB");
    region.road("BC");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).empty) == 1200);
    CHECK(in_tenths(legs(region).loaded) == 1200);
}

TEST_CASE("source and dump site on one stretch of road", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S--1--P---A
    )"));
    region.road("SA");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).loaded) == 300);
    CHECK(in_tenths(legs(region).empty) == 300);
}

TEST_CASE("no tanker fills at a source that is for one parcel alone", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S--1--P--HA
    )"));
    region.road("SA");
    region.source('1');
    region.dump_site_place('P');
    region.parcel('H');
    Routed routed(region.district);
    const auto from_fill = [&] {
        return routing::road_times(routed.roads(), {}, routed.fill_sites, SeasonIndex(0))
            .from_fill.front();
    };
    CHECK(routed.round_trips().fill_trips[0].size() == 1);
    CHECK(reachable(from_fill()));
    routed.fill_sites.front().only_for = ParcelIndex(0);
    CHECK(routed.round_trips().fill_trips[0].empty());
    CHECK_FALSE(reachable(from_fill()));
}

TEST_CASE("a one-way stretch with both on it sends one leg round the block", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        A--1--P---B
        |         |
        S---------C
    )"));
    region.road("AB").one_way = OneWay::forward;
    region.road("BCSA");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).loaded) == 300);
    CHECK(in_tenths(legs(region).empty) == 400 + 200 + 1000 + 200 + 300);
}

TEST_CASE("one-way roads count in the direction they are driven, backward ones too", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-1-A-------B-P-C
            |       |
            D-------E
    )"));
    region.road("SA");
    region.road("BC");
    region.road("AB").one_way = OneWay::backward;
    region.road("ADEB");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).empty) == 1200);
    CHECK(in_tenths(legs(region).loaded) == 200 + 1200 + 200);
    region.district.roads[2].one_way = OneWay::forward;
    CHECK(in_tenths(legs(region).empty) == 1600);
    CHECK(in_tenths(legs(region).loaded) == 1200);
}

TEST_CASE("a posted bridge stops the loaded tanker, the empty one takes it", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-1-A-------B-P-C
            |       |
            D-------E
    )"));
    region.road("SA");
    region.road("BC");
    region.road("AB").weight_limit = pounds(30'000);
    region.road("ADEB");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).empty) == 1600);  // nobody has weighed it
    for (Unit& unit : region.district.units) {
        unit.loaded = pounds(42'000);
        unit.empty = pounds(25'320);
    }
    CHECK(in_tenths(legs(region).loaded) == 1600);
    CHECK(in_tenths(legs(region).empty) == 1200);
    region.district.roads[2].weight_limit = pounds(25'000);
    CHECK(in_tenths(legs(region).empty) == 1600);
}

TEST_CASE("a gate stops the shuttle until the district says that tankers may pass", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-1-A-------B-P-C
    )"));
    region.road("SA");
    region.road("AB").access = RoadAccess::gated;
    region.road("BC");
    region.source('1');
    region.dump_site_place('P');
    CHECK_FALSE(reachable(legs(region).loaded));
    region.district.assumptions.gated_roads_usable = true;
    CHECK(in_tenths(legs(region).loaded) == 1200);
}

TEST_CASE("an island is reached by nobody", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-1-A       B-P-C
    )"));
    region.road("SA");
    region.road("BC");
    region.source('1');
    region.dump_site_place('P');
    region.parcel('P').house.y -= 20;
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    CHECK(trips.fill_trips[0].empty());
    CHECK(trips.stations_of_dump_site[0].empty());
    CHECK_FALSE(reachable(routed.arrivals()[0]));
    CHECK_FALSE(trips.station_miles[0].has_value());
}

TEST_CASE("a place at a junction is reached from every road that meets there", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
            B
            |
        A---P---S
            |
            1
    )"));
    // The one-way road comes first, so that the spot may lie on its end.
    region.road("PA").one_way = OneWay::forward;
    region.road("BP1").one_way = OneWay::both;
    region.road("PS");
    region.source('1');
    region.dump_site_place('P');
    CHECK(in_tenths(legs(region).loaded) == 200);
    CHECK(in_tenths(legs(region).empty) == 200);
}

TEST_CASE("legs longer than the trip limit do not count", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        1-----P---S
    )"));
    region.road("1S");
    region.source('1');
    region.dump_site_place('P');
    region.district.assumptions.trip_limit = minutes(1);
    CHECK(in_tenths(legs(region).loaded) == 600);
    region.district.assumptions.trip_limit = minutes(0.99);
    CHECK_FALSE(reachable(legs(region).loaded));
}

TEST_CASE("fill sites are ranked by round trip within their strength class, ties by index",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        1--2--3--P--4--5--6---S
    )"));
    region.road("1S");
    for (const char letter : {'1', '2', '3', '4', '5', '6'}) {
        region.source(letter);
    }
    region.dump_site_place('P');
    Routed routed(region.district);
    for (const std::size_t strong : {0U, 5U}) {
        routed.fill_sites[strong].strength_class = 7;
    }
    region.district.assumptions.fill_sites_per_class = 3;
    const RoundTrips trips = routed.round_trips();
    std::vector<std::size_t> order;
    for (const FillTrip& trip : trips.fill_trips[0]) {
        order.push_back(trip.fill_site.position());
    }
    CHECK(order == std::vector<std::size_t>{2, 3, 1, 0, 5});
}

TEST_CASE("a fill site that only the lighter tankers reach follows behind", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A--1--B-------P---C----2---D
    )"));
    region.unit(UnitKind::tanker, "T2", 'S');
    region.unit(UnitKind::tanker, "light", 'S').loaded = pounds(20'000);
    region.road("SA");
    region.road("AB").weight_limit = pounds(30'000);
    region.road("BC");
    region.road("CD");
    region.district.stations[0].place = region.at('D');
    region.source('1');
    region.source('2');
    region.dump_site_place('P');
    const Routed routed(region.district);
    REQUIRE(routed.profiles.size() == 3);
    const ProfileIndex heavy(1);
    const ProfileIndex light(2);
    const RoundTrips trips = routed.round_trips();
    const auto row = trips.fill_trips[0];
    REQUIRE(row.size() == 2);
    CHECK(row[0].fill_site == FillSiteIndex(1));
    CHECK(in_tenths(row[0].legs[heavy.position()].loaded) == 900);
    CHECK(in_tenths(row[0].legs[light.position()].loaded) == 900);
    CHECK(row[1].fill_site == FillSiteIndex(0));
    CHECK_FALSE(reachable(row[1].legs[heavy.position()].loaded));
    CHECK(in_tenths(row[1].legs[light.position()].loaded) == 1100);
}

TEST_CASE("a station on a private road answers from the nearest road it may use", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---Q
            |
        A---B----P--C
    )"));
    region.road("SQB").access = RoadAccess::private_road;
    region.road("ABC");
    region.dump_site_place('P');
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const DriveTime drive =
        trips.from_station(routed.profile_of(UnitKind::engine), StationIndex(0), DumpSiteIndex(0));
    CHECK(in_tenths(drive) == 900);  // from A, the nearest point of the open road
}

TEST_CASE("stations reach dump sites and fill sites, with the drive to their gate", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---P---1---Z
    )"));
    region.station('Z').to_gate = minutes(5);
    region.road("SZ");
    region.source('1');
    region.dump_site_place('P');
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const ProfileIndex engine = routed.profile_of(UnitKind::engine);
    CHECK(in_tenths(trips.from_station(engine, StationIndex(0), DumpSiteIndex(0))) == 400);
    CHECK(in_tenths(trips.from_station(engine, StationIndex(1), DumpSiteIndex(0))) == 3800);
    CHECK(in_tenths(trips.station_to_fill_site(engine, StationIndex(0), FillSiteIndex(0))) == 800);
    CHECK(in_tenths(trips.station_to_fill_site(engine, StationIndex(1), FillSiteIndex(0))) == 3400);
    CHECK(trips.stations_of_dump_site[0].size() == 2);
}

TEST_CASE("the first arrival is the earliest over all departures", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A------------Z
          1         2
    )"));
    region.station('Z');
    region.road("SZ");
    region.parcel('1').house.y += 90;
    region.parcel('2').house.y += 90;
    region.target('A');
    const Routed routed(region.district);
    const std::vector<routing::Departure> departures{{StationIndex(0), tenths_of_second(1000)},
                                                     {StationIndex(1), tenths_of_second(300)}};
    const auto arrivals = routing::first_arrivals(
        routed.roads(), routed.profile_of(UnitKind::engine), departures, SeasonIndex(0));
    REQUIRE(arrivals.size() == 3);
    CHECK(in_tenths(arrivals[0]) == 1200);
    CHECK(in_tenths(arrivals[1]) == 800);
    CHECK(in_tenths(arrivals[2]) == 1400);
}

TEST_CASE("the engine stops where the private road begins, if hose reaches from there", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            |
            D
    )"));
    region.road("SAB");
    region.road("AD").access = RoadAccess::private_road;
    region.parcel('D').house = {region.at('A').x + 10, region.at('A').y - 150};
    region.parcel('D').house = {region.at('A').x + 10, region.at('A').y - 290};
    Routed routed(region.district);
    const auto arrivals = routed.arrivals();
    CHECK(in_tenths(arrivals[0]) == 400);
    CHECK_FALSE(reachable(arrivals[1]));
    const RoundTrips trips = routed.round_trips();
    REQUIRE(trips.station_miles[0].has_value());
    CHECK(*trips.station_miles[0] == Approx(550 / 1609.344));
    CHECK_FALSE(trips.station_miles[1].has_value());
}

TEST_CASE("road miles follow the shortest way from an own station, not the fastest", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A-------B
            |       |
            D-------E
    )"));
    Station& neighbour = region.station('B');
    neighbour.aid = Aid::mutual;
    neighbour.to_gate = minutes(10);
    region.road("SA");
    region.road("AB").posted_speed = mph(2);
    region.road("ADEB");
    region.parcel('B').house.y += 10;
    const Routed routed(region.district);
    CHECK(in_tenths(routed.arrivals()[0]) == 400 + 1200);
    const RoundTrips trips = routed.round_trips();
    REQUIRE(trips.station_miles[0].has_value());
    CHECK(*trips.station_miles[0] == Approx(1200 / 1609.344));
}

TEST_CASE("road times tell of each road who can be there when", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---1---B
                    |
        X---Y       C
    )"));
    region.road("SA");
    region.road("AB").posted_speed = mph(10);
    region.road("BC").access = RoadAccess::gated;
    region.road("XY");
    region.road("SS");
    region.source('1');
    const Routed routed(region.district);
    const std::array engines{routing::ProfileDepartures{
        routed.profile_of(UnitKind::engine), {{StationIndex(0), tenths_of_second(600)}}}};
    const RoadTimes times =
        routing::road_times(routed.roads(), engines, routed.fill_sites, SeasonIndex(0));
    CHECK(in_tenths(times.from_station[0]) == 1000);
    CHECK(in_tenths(times.from_station[1]) == 1000 + 1790);  // 800 m at 10 mph
    CHECK_FALSE(reachable(times.from_station[2]));
    CHECK_FALSE(reachable(times.from_station[3]));
    CHECK(in_tenths(times.from_fill[0]) == 895);
    CHECK(in_tenths(times.from_fill[1]) == 895);
    CHECK(times.speed_posted == std::vector<bool>{false, true, false, false, false});
    CHECK(in_mph(times.speed[1]) == Approx(10));
    CHECK(times.tanker_may_use == std::vector<bool>{true, true, false, true, true});
    CHECK(times.component == std::vector<std::int32_t>{0, 0, 0, 1, -1});
}

// The heavy engine leaves first and may not cross the bridge; at its own end it is the first.
TEST_CASE("of engines of several profiles the first one counts on each road", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S---A---B"));
    region.road("SA");
    region.road("AB").weight_limit = pounds(20000);
    region.district.units[0].loaded = pounds(40000);
    region.unit(UnitKind::engine, "E2", 'S').loaded = pounds(15000);
    const Routed routed(region.district);
    std::vector<routing::ProfileDepartures> engines;
    for (std::size_t p = 0; p < routed.profiles.size(); ++p) {
        const Profile& profile = routed.profiles[p];
        if (profile.kind == UnitKind::engine) {
            const bool heavy = profile.members.front() == UnitIndex(0);
            engines.push_back(
                {ProfileIndex(p), {{StationIndex(0), tenths_of_second(heavy ? 0 : 600)}}});
        }
    }
    REQUIRE(engines.size() == 2);
    const auto times = [&](std::span<const routing::ProfileDepartures> of) {
        return routing::road_times(routed.roads(), of, {}, SeasonIndex(0)).from_station;
    };
    const std::vector<DriveTime> both = times(engines);
    const std::vector<DriveTime> one = times(std::span(engines).first(1));
    const std::vector<DriveTime> other = times(std::span(engines).last(1));
    for (std::size_t road = 0; road < both.size(); ++road) {
        CHECK(both[road] == std::min(one[road], other[road]));
    }
    CHECK(reachable(one[1]) != reachable(other[1]));
    CHECK(reachable(both[1]));
    CHECK(in_tenths(both[0]) < 600);
}

TEST_CASE("a district without fleet, sources or stations has no trips and does not fail") {
    AsciiRegion region("A---B");
    region.road("AB");
    region.parcel('A').house.y -= 60;
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    CHECK(trips.fill_trips.size() == trips.dump_sites.size());
    CHECK(trips.stations_of_dump_site.size() == trips.dump_sites.size());
    CHECK(routed.access.access.points.size() == 1);
    CHECK(trips.hose_lays.size() == 1);
    CHECK(trips.station_miles.size() == 1);
    const RoadTimes times = routing::road_times(routed.roads(), {}, {}, SeasonIndex(0));
    CHECK_FALSE(reachable(times.from_station[0]));
    CHECK(times.tanker_may_use[0]);
}

TEST_CASE("the way to a gate point takes longer in a season that slows the roads") {
    const Station gate{.id = "A", .to_gate = minutes(7)};
    CHECK(routing::gate_drive(gate, Season{}) == tenths_of_second(4200));
    CHECK(routing::gate_drive(gate, Season{.speed_factor = 0.875}) == tenths_of_second(4800));
    CHECK(routing::gate_drive(gate, Season{.speed_factor = 1.2}) == tenths_of_second(4200));
    CHECK(routing::gate_drive(gate, Season{.speed_factor = 0.9}) == tenths_of_second(4667));
    CHECK(routing::gate_drive(Station{.id = "B"}, Season{}) == DriveTime{});
}
