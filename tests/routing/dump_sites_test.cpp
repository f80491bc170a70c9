#include "routing/dump_sites.h"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "routing/sites/lanes.h"
#include "routing/speeds.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::dump_site_at;
using test::Routed;

namespace {

// A house this far from the letter, with the least hose from the road.
Parcel& parcel_near(AsciiRegion& region, char letter, double x, double y) {
    Parcel& parcel = region.parcel(letter);
    parcel.house = {region.at(letter).x + x, region.at(letter).y + y};
    return parcel;
}

// With nothing closed, in the first season.
LaneClass lane_near(const Routed& routed, Point p) {
    const RoundTrips trips = routed.round_trips();
    return at(trips.dump_sites, dump_site_at(trips.dump_sites, p)).lane;
}

}  // namespace

TEST_CASE("a parcel gets dump sites along the road within hose reach, nearest first", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S-----A---------------B"));
    region.road("SAB");
    parcel_near(region, 'A', 0, -20).setback = feet(100);
    const Routed routed(region.district);
    const auto lays = routed.dump_sites.hose_lays[0];
    REQUIRE_FALSE(lays.empty());
    Length last;
    for (const HoseLay& lay : lays) {
        const Point site = at(routed.dump_sites.candidates, lay.dump_site).place;
        CHECK(in_feet(lay.length) ==
              Approx(100 + in_feet(distance(site, region.at('A')))).margin(0.01));
        CHECK(lay.length <= feet(1000));
        CHECK(in_feet(distance(site, region.district.parcels[0].house)) >= 150);
        CHECK(lay.length >= last);
        last = lay.length;
    }
}

TEST_CASE("no hose is laid to land that nobody asks about, and no site is kept for it", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S-----A---------------B"));
    region.road("SAB");
    parcel_near(region, 'A', 0, -20);
    parcel_near(region, 'B', 0, -20);
    const Routed both(region.district);
    const auto found =
        routing::find_dump_sites(region.district, both.network.network, both.access.access,
                                 both.profiles, {true, false}, both.work);
    CHECK(found.hose_lays[1].empty());
    CHECK(found.candidates.size() < both.dump_sites.candidates.size());
    REQUIRE(found.hose_lays[0].size() == both.dump_sites.hose_lays[0].size());
    for (std::size_t lay = 0; lay < found.hose_lays[0].size(); ++lay) {
        CHECK(at(found.candidates, found.hose_lays[0][lay].dump_site).place ==
              at(both.dump_sites.candidates, both.dump_sites.hose_lays[0][lay].dump_site).place);
    }
}

TEST_CASE("hose runs along private drives, tankers stop at the public road", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            |
            D
    )"));
    region.road("SAB");
    Road& drive = region.road("AD");
    drive.kind = RoadClass::drive;
    drive.access = RoadAccess::private_road;
    parcel_near(region, 'D', 10, 0);
    region.district.assumptions.hose_reach = feet(1500);
    const Routed routed(region.district);
    REQUIRE_FALSE(routed.dump_sites.hose_lays[0].empty());
    for (const HoseLay& lay : routed.dump_sites.hose_lays[0]) {
        const DumpSiteCandidate& site = at(routed.dump_sites.candidates, lay.dump_site);
        CHECK(site.road == RoadIndex(0));
        CHECK(in_metres(lay.length) ==
              Approx(300 + std::abs(site.place.x - region.at('A').x) + 10 * 1.25 + 50 * 0.3048)
                  .margin(0.01));
    }
}

TEST_CASE("where the drive is drawn its line counts, not the parcel's setback on top of it",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            D
    )"));
    region.road("SAB");
    Road& drive = region.road("AD");
    drive.kind = RoadClass::drive;
    drive.access = RoadAccess::private_road;
    parcel_near(region, 'D', 10, 0).setback = feet(330);
    const auto shortest = [&] {
        const Routed routed(region.district);
        REQUIRE_FALSE(routed.dump_sites.hose_lays[0].empty());
        const HoseLay& lay = routed.dump_sites.hose_lays[0][0];
        const Point site = at(routed.dump_sites.candidates, lay.dump_site).place;
        return in_metres(lay.length) - std::abs(site.x - region.at('A').x);
    };
    CHECK(shortest() == Approx(200 + 10 * 1.25 + 50 * 0.3048).margin(0.01));
    region.district.roads[1].kind = RoadClass::narrow;  // a lane: the setback begins on it
    CHECK(shortest() == Approx(200 + 330 * 0.3048).margin(0.01));
}

TEST_CASE("a house farther off the road than hose goes over land has no lay", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S-----A-----B"));
    region.road("SAB");
    parcel_near(region, 'A', 0, -in_metres(feet(299)));
    parcel_near(region, 'A', 0, -in_metres(feet(301)));
    parcel_near(region, 'A', 0, -in_metres(feet(301))).setback = feet(400);
    const Routed routed(region.district);
    CHECK_FALSE(routed.dump_sites.hose_lays[0].empty());
    CHECK(routed.dump_sites.hose_lays[1].empty());
    CHECK_FALSE(routed.dump_sites.hose_lays[2].empty());
}

TEST_CASE("no lay is longer than the hose reach and no site nearer than the stand-off", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S-----A-----B"));
    region.road("SAB");
    parcel_near(region, 'A', 0, -10).setback = feet(990);
    parcel_near(region, 'A', 0, -10).setback = feet(849);
    const Routed routed(region.district);
    CHECK(routed.dump_sites.hose_lays[0].empty());  // 10 ft are left, the stand-off is 150
    CHECK(routed.dump_sites.hose_lays[1].size() <= 1);
}

TEST_CASE("thinning takes no parcel's supply away", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S---------------------------A"));
    region.road("SA");
    for (int i = 1; i < 110; ++i) {
        parcel_near(region, 'S', 25.0 * i, -30);
    }
    const Routed routed(region.district);
    for (std::size_t i = 0; i < region.district.parcels.size(); ++i) {
        CAPTURE(i);
        CHECK_FALSE(routed.dump_sites.hose_lays[i].empty());
    }
    CHECK(routed.dump_sites.candidates.size() < 60);  // before and behind the house
}

TEST_CASE("the officer's places come first whatever their distance, and stay without a parcel",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-----A-P----B-----------------Q
    )"));
    region.road("SAB");
    region.road("BQ");
    region.dump_site_place('Q').lane = LaneClass::through;
    region.dump_site_place('P').place.y += 15;
    parcel_near(region, 'A', 0, -10);
    const Routed routed(region.district);
    const auto& sites = routed.dump_sites.candidates;
    REQUIRE(sites.size() >= 2);
    CHECK(sites[0].officers_place == 0U);
    CHECK(sites[1].officers_place == 1U);
    CHECK(routed.round_trips().dump_sites[0].lane == LaneClass::through);  // the officer's word
    CHECK(sites[1].place == region.district.dump_site_places[1].place);
    const auto lays = routed.dump_sites.hose_lays[0];
    REQUIRE_FALSE(lays.empty());
    CHECK(lays[0].dump_site == DumpSiteIndex(1));
    CHECK(in_metres(lays[0].length) == Approx(200 + 15 + 10 * 1.25 + 50 * 0.3048).margin(0.01));
    REQUIRE(lays.size() >= 2);
    CHECK(lays[1].length < lays[0].length);
    for (std::size_t i = 2; i < sites.size(); ++i) {
        const bool own = in_feet(distance(sites[i].place, region.at('A'))) <= 400;
        CHECK((own || in_feet(distance(sites[i].place, region.at('P'))) >= 799));
    }
}

TEST_CASE("no dump site on a bridge, in a tunnel or near a rail crossing", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A--B---C--D---E--F---G
    )"));
    region.road("SA");
    region.road("AB").bridge = true;
    region.road("BC");
    region.road("CD").tunnel = true;
    region.road("DE");
    region.road("EF").rail_crossing = true;
    region.road("FG");
    for (const char letter : {'A', 'B', 'C', 'D', 'E', 'F'}) {
        parcel_near(region, letter, 30, -60);
    }
    const Routed routed(region.district);
    REQUIRE_FALSE(routed.dump_sites.candidates.empty());
    for (const DumpSiteCandidate& site : routed.dump_sites.candidates) {
        CAPTURE(site.place.x - region.at('S').x);
        const auto between = [&](char a, char b, double margin) {
            return site.place.x >= region.at(a).x - margin &&
                   site.place.x <= region.at(b).x + margin;
        };
        CHECK_FALSE(between('A', 'B', 0));
        CHECK_FALSE(between('C', 'D', 0));
        CHECK_FALSE(between('E', 'F', 30));
    }
}

TEST_CASE("candidates lie only on roads that a loaded tanker may use", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B---C---D
    )"));
    region.road("SA");
    region.road("AB").access = RoadAccess::gated;
    region.road("BC").weight_limit = pounds(30'000);
    region.road("CD").width = feet(7);
    for (const char letter : {'A', 'B', 'C', 'D'}) {
        parcel_near(region, letter, 0, -60);
    }
    const Routed routed(region.district);
    REQUIRE_FALSE(routed.dump_sites.candidates.empty());
    for (const DumpSiteCandidate& site : routed.dump_sites.candidates) {
        CHECK(site.road == RoadIndex(0));
    }
}

TEST_CASE("a loop is driven through, a spur is a dead end, a road between loops if they are near",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B-----------E---F
            |   |           |   |
            C---D           H---G
            |
            |
            T
    )"));
    region.road("SA");
    region.road("ABDCA");
    region.road("BE");
    region.road("EFGHE");
    region.road("CT");
    region.source('G');  // tankers may come from both sides
    for (const char letter : {'S', 'A', 'B', 'D', 'E', 'F', 'G', 'T'}) {
        parcel_near(region, letter, 60, -60).setback = feet(50);
    }
    region.district.assumptions.dump_site_spacing = feet(200);
    region.district.assumptions.turnaround_reach = metres(1150);
    const Routed routed(region.district);
    const Point middle{(region.at('B').x + region.at('E').x) / 2, region.at('B').y};
    CHECK(lane_near(routed, region.at('B')) == LaneClass::through);
    CHECK(lane_near(routed, region.at('G')) == LaneClass::through);
    CHECK(lane_near(routed, middle) == LaneClass::through);
    region.district.assumptions.turnaround_reach = metres(500);
    CHECK(lane_near(Routed(region.district), middle) == LaneClass::dead_end);
    CHECK(lane_near(routed, region.at('A')) == LaneClass::through);
    CHECK(lane_near(routed, region.at('S')) == LaneClass::dead_end);
    CHECK(lane_near(routed, region.at('T')) == LaneClass::dead_end);
}

TEST_CASE("a loop that one season closes is a dead end in that season", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |   |
            C---D
    )"));
    region.road("SA");
    region.road("AB");
    Road& seasonal = region.road("BD");
    seasonal.maintained = MonthSet{};
    seasonal.maintained.include(std::chrono::July);
    region.road("DCA");
    Season summer;
    summer.months = MonthSet{};
    summer.months.include(std::chrono::July);
    Season winter;
    winter.months = MonthSet{};
    winter.months.include(std::chrono::January);
    region.district.seasons = {summer, winter};
    parcel_near(region, 'C', 0, -60);
    const Routed routed(region.district);
    const auto lane_in = [&](std::size_t season) {
        const RoundTrips trips = routed.round_trips(SeasonIndex(season));
        return at(trips.dump_sites, dump_site_at(trips.dump_sites, region.at('C'))).lane;
    };
    CHECK(lane_in(0) == LaneClass::through);
    CHECK(lane_in(1) == LaneClass::dead_end);
}

TEST_CASE("a tanker that can turn ahead need not back", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B-----------P--T--E
            |   |
            C---D
    )"));
    region.road("SA");
    region.road("ABDCA");
    region.road("BPTE");
    region.dump_site_place('P');
    region.source('S');
    const auto lane = [&] { return Routed(region.district).round_trips().dump_sites[0].lane; };
    CHECK(lane() == LaneClass::dead_end);

    SECTION("at a turnaround of the layer, within turnaround_reach") {
        region.district.turnarounds.push_back({"T1", "", 0, region.at('T')});
        CHECK(lane() == LaneClass::dead_end);  // E is 500 m away: somebody might come from there
        region.district.assumptions.turnaround_reach = metres(600);
        CHECK(lane() == LaneClass::through);
        region.district.assumptions.turnaround_reach = metres(250);
        CHECK(lane() == LaneClass::dead_end);
    }
    SECTION("not at one that lies before the dump site") {
        region.district.assumptions.turnaround_reach = metres(600);
        region.district.turnarounds.push_back(
            {"T1", "", 0, {region.at('P').x - 100, region.at('P').y}});
        CHECK(lane() == LaneClass::dead_end);
    }
    SECTION("not where tankers come from the turnaround's side") {
        region.district.assumptions.turnaround_reach = metres(600);
        region.district.turnarounds.push_back({"T1", "", 0, region.at('T')});
        region.source('E');
        CHECK(lane() == LaneClass::dead_end);
    }
    SECTION("at the place itself, where the officer says so") {
        region.district.dump_site_places[0].turnaround = true;
        CHECK(lane() == LaneClass::through);
        region.district.dump_site_places[0].lane = LaneClass::dead_end;  // his word stands above
        CHECK(lane() == LaneClass::dead_end);
    }
    SECTION("nor at one that is too far from the road, which is reported") {
        region.district.assumptions.turnaround_reach = metres(600);
        region.district.turnarounds.push_back(
            {"T1", "", 0, {region.at('T').x, region.at('T').y + 70}});
        CHECK(lane() == LaneClass::dead_end);
        const Routed routed(region.district);
        CHECK(test::count_of(routed.access.problems, ProblemId::turnaround_off_road) == 1);
    }
}

TEST_CASE("a fill site has a lane class, with the source's turnaround", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B---1
            |   |
            C---D
    )"));
    region.road("SA");
    region.road("ABDCA");
    region.road("B1");
    region.source('1');
    CHECK(Routed(region.district).round_trips().fill_lanes[0] == LaneClass::dead_end);
    region.district.sources[0].turnaround = true;
    CHECK(Routed(region.district).round_trips().fill_lanes[0] == LaneClass::through);
}

TEST_CASE("hose along the road closes it: a house between junctions leaves tankers one side",
          "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B---E
            |   |   |
            C---D---F
    )"));
    region.road("SABE");
    region.road("ACDFE");
    region.road("BD");
    parcel_near(region, 'A', 200, 60).setback = feet(50);  // between A and B
    region.district.assumptions.hose_reach = feet(1500);
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const auto lane_from = [&](char letter) {
        const DumpSiteIndex site = dump_site_at(trips.dump_sites, region.at(letter));
        for (const HoseLay& lay : trips.hose_lays[0]) {
            if (lay.dump_site == site) {
                return lay.lane;
            }
        }
        FAIL("no lay from there");
        return LaneClass::dead_end;
    };
    CHECK(lane_near(routed, region.at('A')) == LaneClass::through);
    CHECK(lane_from('B') == LaneClass::through);   // out by E or by D
    CHECK(lane_from('A') == LaneClass::dead_end);  // S ends, C is the only way on
}

TEST_CASE("where two tankers cannot meet the next one waits at the junction", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S---A---B
            |
            |
            D-E
    )"));
    region.road("SAB");
    region.road("ADE").width = feet(12);
    region.source('S');
    region.dump_site_place('D');
    parcel_near(region, 'E', 60, -60).setback = feet(50);
    Road& lane = region.district.roads[1];
    DumpSitePlace& place = region.district.dump_site_places[0];
    const auto alone = [&] {
        const RoundTrips trips = Routed(region.district).round_trips();
        REQUIRE_FALSE(trips.hose_lays[0].empty());
        REQUIRE(at(trips.dump_sites, trips.hose_lays[0][0].dump_site).officers_place);
        return trips.hose_lays[0][0];
    };
    const Length way = distance(region.at('A'), region.at('D'));
    const Speed speed = routing::planning_speed(lane, Routed(region.district).profiles.back(),
                                                region.district.seasons[0], routing::Load::loaded,
                                                region.district.assumptions)
                            .speed;
    const double seconds = in_minutes(way / speed) * 60.0;
    CHECK(alone().single_file_s == Approx(std::ceil(seconds)).margin(1.0));
    CHECK(alone().lane == LaneClass::dead_end);

    SECTION("not on a road that is wide enough") {
        lane.width = feet(16);
        CHECK(alone().single_file_s == 0);
        lane.width.reset();
        CHECK(alone().single_file_s == 0);
        lane.kind = RoadClass::narrow;  // a blank of a narrow road never helps
        CHECK(alone().single_file_s > 0);
    }
    SECTION("who turns there comes back by the same way") {
        place.turnaround = true;
        CHECK(alone().lane == LaneClass::through);
        CHECK(alone().single_file_s > 0);
    }
    SECTION("unless the officer says that they drive through") {
        place.lane = LaneClass::through;
        CHECK(alone().single_file_s == 0);
    }
}

namespace {

// From S a road leads to M, and from there one to the house at H that is maintained in summer only.
AsciiRegion with_a_summer_road(std::string_view drawing) {
    AsciiRegion region = with_fleet(AsciiRegion(drawing));
    region.road("SM");
    region.road("MH").access = RoadAccess::unmaintained;
    region.district.assumptions.unmaintained_roads_usable = true;
    parcel_near(region, 'H', 0, -20).setback = feet(100);
    return region;
}

void add_winter(AsciiRegion& region) {
    Season winter = region.district.seasons.front();
    winter.closed_access = {RoadAccess::unmaintained};
    region.district.seasons.push_back(winter);
}

bool has_site_on_open_road(const AsciiRegion& region) {
    const Routed routed(region.district);
    return std::ranges::any_of(routed.dump_sites.hose_lays[0], [&](const HoseLay& lay) {
        return at(routed.dump_sites.candidates, lay.dump_site).place.x <= region.at('M').x + 1e-6;
    });
}

}  // namespace

// 18 sites stand nearer, on the road that is closed in winter.
TEST_CASE("a parcel keeps a dump site that is open all year, however many are nearer", "[map]") {
    AsciiRegion region = with_a_summer_road("S--M------H");
    region.district.assumptions.dump_site_spacing = feet(100);
    region.district.assumptions.hose_reach = feet(3000);
    CHECK_FALSE(has_site_on_open_road(region));
    add_winter(region);
    CHECK(has_site_on_open_road(region));
}

// The spaced sites near the house stand on the road that is closed in winter; the spacing leaves
// the other road without one in hose reach.
TEST_CASE("a parcel gets a place of its own on a road that is open all year", "[map]") {
    AsciiRegion region = with_a_summer_road("S-----MH");
    region.district.assumptions.dump_site_spacing = feet(900);
    region.district.assumptions.hose_reach = feet(600);
    add_winter(region);
    CHECK(has_site_on_open_road(region));
}
