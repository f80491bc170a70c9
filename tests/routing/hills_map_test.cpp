// Hills and travel-time rules on drawn roads.
#include <cmath>

#include <catch2/catch.hpp>

#include "routing/route_lines.h"
#include "tests/routing/hills.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

// The straight way from A to B is 1,000 m over a hill, the way round it 1,400 m. The tanker has 300
// lb/hp loaded and 150 empty.
AsciiRegion over_a_hill() {
    AsciiRegion region(R"(
        1-A---------B-P
          |         |
          |         |
          C---------D
        S
    )");
    region.district.dump_site_places.clear();
    region.station('S');
    region.unit(UnitKind::engine, "E1", 'S');
    Unit& tanker = region.unit(UnitKind::tanker, "T1", 'S');
    tanker.loaded = pounds(60'000);
    tanker.empty = pounds(30'000);
    tanker.power = horsepower(200);
    region.road("1A");
    region.road("AB").name = "over the hill";
    region.road("ACDB").name = "round the hill";
    region.road("BP");
    region.source('1');
    region.dump_site_place('P');
    return region;
}

// A ridge that rises 12 % from the places A and B to the middle between them, and falls off to the
// south before the way round it.
void raise_hill(AsciiRegion& region) {
    const Point a = region.at('A');
    const Point b = region.at('B');
    region.district.elevation =
        test::ground({{a.x - 800, a.y - 800}, {b.x + 800, a.y + 400}}, 10, [=](double x, double y) {
            const double along = std::max(0.0, std::min(x - a.x, b.x - x));
            return 100.0 + (y > a.y - 150 ? 0.12 * along : 0.0);
        });
}

LegTimes legs_of(const Routed& routed) {
    return test::legs_between(routed.round_trips(), DumpSiteIndex(0), 0,
                              routed.profile_of(UnitKind::tanker));
}

// Names of the roads that a way takes.
bool takes(const Routed& routed, RouteKind kind, std::string_view road) {
    const WantedRoute wanted{kind,
                             SeasonIndex(0),
                             routed.profile_of(UnitKind::tanker),
                             DumpSiteIndex(0),
                             SourceIndex(0),
                             StationIndex(),
                             no_time};
    const auto routes =
        routing::route_lines(routed.roads(), routed.dump_sites, std::span(&wanted, 1), routed.work);
    return std::ranges::any_of(routes[0].roads, [&](RoadIndex index) {
        return at(routed.district.roads, index).name == road;
    });
}

constexpr double metres_a_tenth = 1609.344 / 1020.0;  // of a second, at 1.7 minutes a mile

}  // namespace

TEST_CASE("a tanker takes the longer flat way loaded and the way over the hill empty", "[map]") {
    AsciiRegion region = over_a_hill();
    {
        const Routed routed(region.district);  // no elevation: both over the hill
        CHECK(in_tenths(legs_of(routed).loaded) == 1400);
        CHECK(in_tenths(legs_of(routed).empty) == 1400);
    }
    raise_hill(region);
    const Routed routed(region.district);
    CHECK(in_tenths(legs_of(routed).loaded) == Approx(200 + 300 + 1000 + 300 + 200).margin(10));
    CHECK(takes(routed, RouteKind::loaded, "round the hill"));
    CHECK(takes(routed, RouteKind::empty, "over the hill"));
    // 500 m up 12 % at 318.75 / (150 x 0.132) = 16.1 mph, 500 m down at 10 m/s; the ridge and the
    // foot are rounded off.
    const double expected = 400 + 500 + 500 / (16.1 * 0.44704) * 10;
    CHECK(in_tenths(legs_of(routed).empty) == Approx(expected).epsilon(0.03));
}

TEST_CASE("the road layer tells of a hill", "[map]") {
    AsciiRegion region = over_a_hill();
    CHECK_FALSE(
        routing::road_times(Routed(region.district).roads(), {}, {}, SeasonIndex(0)).grade_pct[1]);
    raise_hill(region);
    const Routed routed(region.district);
    const RoadTimes times = routing::road_times(routed.roads(), {}, {}, SeasonIndex(0));
    CHECK(times.grade_pct[1].value_or(0.0F) == Approx(12).margin(0.1));
    CHECK(times.grade_pct[2].value_or(99.0F) < 2.0F);  // beside the foot of the ridge
    // Half at 10 m/s and half at the crawl speed of 318.75 / (300 x 0.132) mph.
    const double crawl = 318.75 / (300 * 0.132) * 0.44704;
    CHECK(in_mph(times.speed[1]) * 0.44704 == Approx(2 / (1 / 10.0 + 1 / crawl)).epsilon(0.06));
    CHECK(in_mph(times.speed[2]) * 0.44704 == Approx(10).epsilon(0.01));
}

TEST_CASE("by the linear rule the shortest way counts, hill or not, with 0.65 minutes for each leg",
          "[map]") {
    AsciiRegion region = over_a_hill();
    raise_hill(region);
    region.district.roads[1].posted_speed = mph(5);
    region.district.travel_time = TravelTime::linear_per_leg;
    const Routed routed(region.district);
    const int moving = static_cast<int>(std::ceil(1400 / metres_a_tenth - 1e-3));
    CHECK(in_tenths(legs_of(routed).loaded) == 390 + moving);
    CHECK(in_tenths(legs_of(routed).empty) == 390 + moving);
    CHECK(takes(routed, RouteKind::loaded, "over the hill"));
    const RoadTimes times =
        routing::road_times(routed.roads(), {}, routed.fill_sites, SeasonIndex(0));
    CHECK(in_mph(times.speed[1]) == 0.0);
    CHECK(in_tenths(times.from_fill[3]) ==
          390 + static_cast<int>(std::ceil(1200 / metres_a_tenth - 1e-3)));
}

TEST_CASE("by the linear rule of the round trip the 0.65 minutes count once", "[map]") {
    AsciiRegion region = over_a_hill();
    region.district.travel_time = TravelTime::linear_per_round_trip;
    region.district.roads[1].weight_limit = pounds(40'000);  // loaded goes round
    const Routed routed(region.district);
    const auto moving = [](double way) {
        return static_cast<int>(std::ceil(way / metres_a_tenth - 1e-3));
    };
    CHECK(in_tenths(legs_of(routed).loaded) == 195 + moving(2000));
    CHECK(in_tenths(legs_of(routed).empty) == 195 + moving(1400));
}

TEST_CASE("the trip limit holds under the linear rules", "[map]") {
    AsciiRegion region = over_a_hill();
    region.district.travel_time = TravelTime::linear_per_leg;
    const int leg = 390 + static_cast<int>(std::ceil(1400 / metres_a_tenth - 1e-3));
    region.district.assumptions.trip_limit = minutes(leg / 600.0);
    CHECK(in_tenths(legs_of(Routed(region.district)).loaded) == leg);
    region.district.assumptions.trip_limit = minutes((leg - 1) / 600.0);
    CHECK_FALSE(reachable(legs_of(Routed(region.district)).loaded));
}

TEST_CASE("responses by the linear rule come after turnout, from the station that is there first",
          "[map]") {
    AsciiRegion region(R"(
        S-----1-----------T
    )");
    region.station('S');
    region.station('T');
    region.unit(UnitKind::engine, "E1", 'S');
    region.road("S1T");
    region.parcel('1').house.y -= 20;
    region.district.travel_time = TravelTime::linear_per_round_trip;
    const Routed routed(region.district);
    const auto moving = [](double way) {
        return static_cast<int>(std::ceil(way / metres_a_tenth - 1e-3));
    };
    const auto first = [&](std::int32_t s_leaves, std::int32_t t_leaves) {
        const std::vector<routing::Departure> departures{
            {StationIndex(0), tenths_of_second(s_leaves)},
            {StationIndex(1), tenths_of_second(t_leaves)}};
        return in_tenths(routing::first_arrivals(routed.roads(), ProfileIndex(0), departures,
                                                 SeasonIndex(0))[0]);
    };
    CHECK(first(900, 900) == 900 + 390 + moving(600));
    CHECK(first(3600, 900) == 900 + 390 + moving(1200));
}
