// Dump sites on level road only.
#include "routing/sites/level_stretches.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/routing/hills.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::count_of;
using test::Routed;

namespace {

// Rises by `percent` from the letter on to the east, for 600 m; level before and behind.
void raise_after(AsciiRegion& region, char letter, double percent) {
    const double foot = region.at(letter).x;
    const Point s = region.at('S');
    region.district.elevation = test::ground(
        {{s.x - 500, s.y - 1500}, {s.x + 4000, s.y + 1500}}, 10, [=](double x, double) {
            return 100.0 + percent / 100.0 * std::min(std::max(x - foot, 0.0), 600.0);
        });
}

// Houses along the road, so that candidates serve somebody.
void houses_along(AsciiRegion& region, char from, double metres_on) {
    for (double x = 0; x <= metres_on; x += 50) {
        Parcel& parcel = region.parcel(from);
        parcel.house = {region.at(from).x + x, region.at(from).y - 60};
    }
}

std::vector<Problem> unfit(const Routed& routed) {
    return routing::unfit_places(routed.district, routed.network.network, routed.access.access,
                                 routed.profiles);
}

}  // namespace

TEST_CASE("no dump site stands on a hill of 6 percent, some do on one of 4", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S----------A---------------B"));
    region.road("SAB");
    houses_along(region, 'S', 2700);
    const auto on_the_hill = [&](double percent) {
        raise_after(region, 'A', percent);
        const Routed routed(region.district);
        const double foot = region.at('A').x;
        std::size_t count = 0;
        for (const DumpSiteCandidate& site : routed.dump_sites.candidates) {
            CAPTURE(site.place.x - foot);
            REQUIRE(site.grade_pct.has_value());
            CHECK(*site.grade_pct <= 5.0);
            // Heights are means over 60 m, so the hill begins and ends softly.
            count += site.place.x > foot + 30 && site.place.x < foot + 570 ? 1U : 0U;
        }
        for (std::size_t i = 0; i < 10; ++i) {  // far from the hill nothing changes
            CHECK_FALSE(routed.dump_sites.hose_lays[i].empty());
        }
        return count;
    };
    CHECK(on_the_hill(4) >= 2);
    CHECK(on_the_hill(6) == 0);
    region.district.assumptions.steepest_dump_site_pct = 7;
    raise_after(region, 'A', 6);
    const Routed routed(region.district);
    CHECK(std::ranges::any_of(routed.dump_sites.candidates, [](const DumpSiteCandidate& site) {
        return site.grade_pct.value_or(0.0) > 5.5;
    }));
}

TEST_CASE("a house beside a steep stretch is served from the nearest level road", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S----------A---------------B"));
    region.road("SAB");
    raise_after(region, 'A', 9);
    Parcel& parcel = region.parcel('A');
    parcel.house = {region.at('A').x + 150, region.at('A').y - 40};
    const Routed routed(region.district);
    REQUIRE_FALSE(routed.dump_sites.hose_lays[0].empty());
    for (const HoseLay& lay : routed.dump_sites.hose_lays[0]) {
        CHECK(at(routed.dump_sites.candidates, lay.dump_site).place.x < region.at('A').x + 20);
    }
}

TEST_CASE("where no level road is in reach of the hose there is no dump site", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S----------A---------------B"));
    region.road("SAB");
    raise_after(region, 'A', 9);
    region.district.assumptions.hose_reach = feet(600);
    Parcel& parcel = region.parcel('A');
    parcel.house = {region.at('A').x + 300, region.at('A').y - 40};
    CHECK(Routed(region.district).dump_sites.hose_lays[0].empty());
    region.district.elevation = {};
    CHECK_FALSE(Routed(region.district).dump_sites.hose_lays[0].empty());
}

TEST_CASE("a junction is a dump site where one of its roads is level", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S----------J---------------B
                   |
                   |
                   |
                   C
    )"));
    region.road("SJ");
    region.road("JB");
    region.road("JC");
    raise_after(region, 'J', 9);
    region.parcel('C').house = {region.at('J').x - 70, region.at('J').y - 70};
    const Routed routed(region.district);
    const auto& sites = routed.dump_sites.candidates;
    const DumpSiteIndex site = test::dump_site_at(sites, region.at('J'));
    CHECK(distance(at(sites, site).place, region.at('J')) < metres(0.01));
    CHECK(at(sites, site).road != RoadIndex(1));
    CHECK(at(sites, site).grade_pct.value_or(0.0) <= 5.0);
}

TEST_CASE("the officer's place on a slope is kept, reported, and its grade known", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S----------A--P-------Q-----B"));
    region.road("SAB");
    raise_after(region, 'A', 8);
    region.dump_site_place('P');
    region.dump_site_place('Q');
    const Routed routed(region.district);
    REQUIRE(routed.dump_sites.candidates.size() == 2);
    CHECK(routed.dump_sites.candidates[0].grade_pct.value_or(-1.0) == Approx(8.0).margin(0.05));
    CHECK(routed.dump_sites.candidates[1].grade_pct.value_or(-1.0) == Approx(0.0).margin(0.05));
    const std::vector<Problem> problems = unfit(routed);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].id == ProblemId::place_unfit);
    CHECK(problems[0].record == region.district.dump_site_places[0].id);
    CHECK(problems[0].detail == "grade 8.0 %");

    SECTION("a lot off the road has no grade that the road tells") {
        region.district.dump_site_places[0].place.y += 20;
        const Routed again(region.district);
        CHECK_FALSE(again.dump_sites.candidates[0].grade_pct.has_value());
        CHECK(unfit(again).empty());
    }
}

TEST_CASE("the officer's places on a bridge and beside a rail crossing are reported", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S---P---A------Q-B---C"));
    region.road("SA").bridge = true;
    region.road("AB");
    region.road("BC").rail_crossing = true;
    region.dump_site_place('P');
    region.dump_site_place('Q');
    region.district.dump_site_places[1].place = {region.at('B').x - in_metres(feet(99)),
                                                 region.at('B').y};
    const Routed routed(region.district);
    const std::vector<Problem> problems = unfit(routed);
    REQUIRE(problems.size() == 2);
    CHECK(problems[0].detail == "on a bridge");
    CHECK(problems[1].detail == "within 100 ft of a rail crossing");
    region.district.dump_site_places[1].place.x -= in_metres(feet(3));
    CHECK(unfit(Routed(region.district)).size() == 1);
}

TEST_CASE("the nearest level spot of an edge equals a look at every ten centimetres", "[twin]") {
    AsciiRegion region("A----B");
    region.road("AB");
    routing::Network network = routing::build_network(region.district, Work{}).network;
    const double length = in_metres(network.edges[0].length());
    std::size_t moved = 0;
    std::size_t none = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        test::Dice dice(seed);
        const std::size_t steps = 1 + dice.below(20);
        network.grades.first = {0, static_cast<std::uint32_t>(steps)};
        network.grades.steps.clear();
        for (std::size_t i = 0; i < steps; ++i) {
            const auto grade = static_cast<routing::Grade>(dice.between(-800, 800));
            network.grades.steps.push_back(dice.one_in(9) ? routing::no_grade : grade);
        }
        Assumptions assumptions;
        assumptions.dump_site_length = metres(dice.of(std::vector{10.0, 40.0, 130.0, 900.0}));
        const routing::LevelStretches stretches(assumptions, network);
        const double low = dice.between(0, 200);
        const double high = dice.between(low, length);
        const routing::RoadSpot spot{routing::EdgeIndex(0), dice.between(low, high)};
        const auto found = stretches.nearest(spot, low, high);
        double best = 1e9;
        for (double along = low; along <= high; along += 0.1) {
            if (stretches.level({spot.edge, along})) {
                best = std::min(best, std::abs(along - spot.along));
            }
        }
        if (found) {
            REQUIRE(stretches.level(*found));
            REQUIRE(found->along >= low);
            REQUIRE(found->along <= high);
            REQUIRE(std::abs(found->along - spot.along) <= best + 1e-9);
            moved += found->along != spot.along ? 1U : 0U;
        } else {
            REQUIRE(best == 1e9);
            ++none;
        }
    }
    CHECK(moved > 40);
    CHECK(none > 40);
}

TEST_CASE("tanks in line have the road that is straight and level around their spot", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S----------J---------------B
                   |
                   |
                   C
    )"));
    region.road("SJC");  // turns by 90 degrees at J
    region.road("JB");
    const auto straight_at = [&](std::size_t road, double along) {
        const Routed routed(region.district);
        const routing::LevelStretches level(region.district.assumptions, routed.network.network);
        return in_feet(level.straight(
            region.district, routing::spot_on(routed.network.network, RoadIndex(road), along)));
    };
    const double to_corner = region.at('J').x - region.at('S').x;
    const double longest = 35 + 3 * 16;  // engine and three tanks
    CHECK(straight_at(0, to_corner / 2) == Approx(longest));
    CHECK(straight_at(1, 0.0) == Approx(longest));             // from the junction on
    CHECK(straight_at(0, 5.0) == Approx(longest));             // 5 m behind it, the rest before it
    region.district.roads.pop_back();                          // no junction at the corner now
    CHECK(straight_at(0, to_corner - 6.0) >= longest - 1e-9);  // 6 m before the corner, and back
    CHECK(straight_at(0, to_corner - 0.5) < longest / 2);      // in the corner
    raise_after(region, 'S', 9);
    CHECK(straight_at(0, 300.0) == 0.0);  // on the hill
}
