// Times up and down hills, against plain sums.
#include <cmath>

#include <catch2/catch.hpp>

#include "routing/costs.h"
#include "routing/driving/road_pace.h"
#include "tests/routing/hills.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::Routed;

namespace {

constexpr double wave_m = 220.0;

double hill(double x, double y) { return 24.0 * std::sin(x / wave_m) + 9.0 * std::cos(y / 310.0); }

// Hours along a straight road in steps of half a metre on the true ground.
double fine_hours(Point a, Point b, double level_mph, double pounds_per_hp) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const int steps = static_cast<int>(length * 2);
    double hours = 0.0;
    for (int i = 0; i < steps; ++i) {
        const auto height = [&](double share) {
            return hill(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
        };
        const double run = length / steps;
        const double grade =
            (height((i + 1.0) / steps) - height(static_cast<double>(i) / steps)) / run;
        const double crawl = 318.75 / (pounds_per_hp * (std::max(grade, 0.0) + 0.012));
        const double slow = std::max(crawl, grade <= 0.06 ? 20.0 : 5.0);
        hours += run / 1609.344 / std::min(level_mph, slow);
    }
    return hours;
}

District one_road_over_hills(Point a, Point b) {
    District district;
    Road road;
    road.line = {a, b};
    road.kind = RoadClass::state;
    district.roads.push_back(road);
    district.seasons.emplace_back();
    district.elevation = test::ground({{-200, -200}, {3200, 1200}}, 10, hill);
    return district;
}

}  // namespace

TEST_CASE("the time over hills is that of a fine sum on the true ground", "[twin]") {
    test::Dice dice(31);
    for (int round = 0; round < 60; ++round) {
        const Point a{dice.between(0, 900), dice.between(0, 900)};
        const Point b{dice.between(2000, 2900), dice.between(0, 900)};
        const District district = one_road_over_hills(a, b);
        Profile tanker;
        tanker.loaded_per_power = pounds_per_horsepower(dice.between(80, 260));
        const auto network = routing::build_network(district, Work{}).network;
        const auto costs = routing::drive_costs(district, network, tanker, district.seasons[0],
                                                routing::Load::loaded);
        const double there =
            fine_hours(a, b, 45, in_pounds_per_horsepower(tanker.loaded_per_power));
        const double back = fine_hours(b, a, 45, in_pounds_per_horsepower(tanker.loaded_per_power));
        CAPTURE(round, in_pounds_per_horsepower(tanker.loaded_per_power));
        CHECK(costs.forward[0] == Approx(there * 36000).epsilon(0.02));
        CHECK(costs.backward[0] == Approx(back * 36000).epsilon(0.02));
    }
}

TEST_CASE("a part of a road takes the time of its own hills", "[twin]") {
    test::Dice dice(32);
    for (int round = 0; round < 60; ++round) {
        const Point a{dice.between(0, 900), dice.between(0, 900)};
        const Point b{dice.between(2000, 2900), dice.between(0, 900)};
        const District district = one_road_over_hills(a, b);
        const double burden = dice.between(80, 260);
        Profile tanker;
        tanker.loaded_per_power = pounds_per_horsepower(burden);
        const auto network = routing::build_network(district, Work{}).network;
        const auto costs = routing::drive_costs(district, network, tanker, district.seasons[0],
                                                routing::Load::loaded);
        const double length = in_metres(network.edges[0].length());
        const double begin = dice.between(0, length);
        const double end = dice.between(begin, length);
        const auto at = [&](double along) {
            return Point{a.x + (b.x - a.x) * along / length, a.y + (b.y - a.y) * along / length};
        };
        const auto cost = [&](bool as_drawn) {
            return routing::stretch_cost(network, costs, routing::EdgeIndex(0), as_drawn, begin,
                                         end);
        };
        CAPTURE(round, burden, begin, end, length);
        CHECK(cost(true) ==
              Approx(fine_hours(at(begin), at(end), 45, burden) * 36000).epsilon(0.02).margin(7));
        CHECK(cost(false) ==
              Approx(fine_hours(at(end), at(begin), 45, burden) * 36000).epsilon(0.02).margin(7));
    }
}

TEST_CASE(
    "the parts of an edge are no more than the whole, and together the whole but for rounding",
    "[property]") {
    std::size_t uneven = 0;
    for (std::uint64_t seed = 2; seed <= 100; seed += 2) {
        CAPTURE(seed);
        test::Dice dice(seed);
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const auto costs = routing::drive_costs(district, network, routed.profiles.back(),
                                                district.seasons[0], routing::Load::loaded);
        for (std::size_t e = 0; e < network.edges.size(); ++e) {
            const double length = in_metres(network.edges[e].length());
            const double cut = dice.between(0, length);
            for (const bool as_drawn : {true, false}) {
                const auto cost = [&](double begin, double end) {
                    return routing::stretch_cost(network, costs, routing::EdgeIndex(e), as_drawn,
                                                 begin, end);
                };
                const std::int32_t whole = costs.of(routing::EdgeIndex(e), as_drawn);
                if (whole == routing::no_way) {
                    CHECK(cost(0, cut) == routing::no_way);
                    continue;
                }
                CHECK(cost(0, length) == whole);
                CHECK(cost(cut, cut) == 0);
                CHECK(cost(0, cut) <= cost(0, (cut + length) / 2));
                CHECK(cost(0, cut) + cost(cut, length) >= whole);
                CHECK(cost(0, cut) + cost(cut, length) <= whole + 1);
                uneven += std::abs(cost(0, cut) - whole * cut / length) > 2 ? 1U : 0U;
            }
        }
    }
    CHECK(uneven > 100);
}

TEST_CASE("grades are those of the slow twin", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 2; seed <= 100; seed += 2) {
        const District district = test::random_district(seed);
        const auto network = routing::build_network(district, Work{}).network;
        const slow::Streets streets = slow::streets_of(district);
        for (std::size_t e = 0; e < streets.pieces.size(); ++e) {
            CAPTURE(seed, e);
            const auto expected = slow::grades_of(district, streets, streets.pieces[e]);
            const auto found = network.grades.of(e);
            REQUIRE(found.size() == expected.size());
            for (std::size_t i = 0; i < found.size(); ++i) {
                const int grade = found[i] == routing::no_grade ? 0 : found[i];
                REQUIRE(grade == std::lround(expected[i] * 1e4));
                ++compared;
            }
        }
    }
    CHECK(compared > 10'000);
}

TEST_CASE("grades make no edge faster, and no edge beats its posted limit", "[property]") {
    std::size_t slower = 0;
    for (std::uint64_t seed = 2; seed <= 200; seed += 2) {
        CAPTURE(seed);
        const District hilly = test::random_district(seed);
        District level = hilly;
        level.elevation = {};
        const Routed on_hills(hilly);
        const Routed on_level(level);
        const routing::Network& network = on_hills.network.network;
        for (const Profile& profile : on_hills.profiles) {
            for (const routing::Load load : {routing::Load::loaded, routing::Load::empty}) {
                const Season& season = hilly.seasons[seed / 2 % 2];
                const auto up = routing::drive_costs(hilly, network, profile, season, load);
                const auto flat =
                    routing::drive_costs(level, on_level.network.network, profile, season, load);
                for (std::size_t e = 0; e < network.edges.size(); ++e) {
                    REQUIRE(up.forward[e] >= flat.forward[e]);
                    REQUIRE(up.backward[e] >= flat.backward[e]);
                    slower += up.forward[e] > flat.forward[e] ? 1U : 0U;
                    const Road& road = at(hilly.roads, network.edges[e].road);
                    if (road.posted_speed && up.forward[e] != routing::no_way) {
                        const double hours = (up.forward[e] + 1e-6) / 36000.0;
                        REQUIRE(in_miles(network.edges[e].length()) / hours <=
                                in_mph(*road.posted_speed) * (1 + 1e-6));
                    }
                }
            }
        }
    }
    CHECK(slower > 300);
}

TEST_CASE("grades make no round trip and no response faster", "[property]") {
    for (std::uint64_t seed = 2; seed <= 60; seed += 2) {
        CAPTURE(seed);
        District hilly = test::random_district(seed);
        hilly.assumptions.steepest_dump_site_pct = 20;  // so that both have the same dump sites
        District level = hilly;
        level.elevation = {};
        const Routed on_hills(hilly);
        const Routed on_level(level);
        const auto later = on_hills.arrivals();
        const auto sooner = on_level.arrivals();
        for (std::size_t i = 0; i < later.size(); ++i) {
            REQUIRE(later[i] >= sooner[i]);
        }
        const RoundTrips up = on_hills.round_trips();
        const RoundTrips flat = on_level.round_trips();
        for (std::size_t d = 0; d < up.dump_sites.size(); ++d) {
            for (const FillTrip& trip : up.fill_trips[d]) {
                for (std::size_t p = 0; p < on_hills.profiles.size(); ++p) {
                    const LegTimes legs = test::legs_between(
                        flat, DumpSiteIndex(d), trip.fill_site.position(), ProfileIndex(p));
                    REQUIRE(trip.legs[p].loaded >= legs.loaded);
                    REQUIRE(trip.legs[p].empty >= legs.empty);
                }
            }
        }
    }
}

TEST_CASE("a road's pace is its length over the time of its slower direction", "[twin]") {
    for (std::uint64_t seed = 2; seed <= 60; seed += 2) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const slow::Streets streets = slow::streets_of(district);
        const Profile& profile = routed.profiles.back();
        const Season& season = district.seasons[0];
        for (std::size_t r = 0; r < district.roads.size(); ++r) {
            const Road& road = district.roads[r];
            double miles = 0.0;
            double hours[2] = {0.0, 0.0};
            double steepest = 0.0;
            for (const slow::Piece& piece : streets.pieces) {
                if (piece.road != r) {
                    continue;
                }
                const auto grades = slow::grades_of(district, streets, piece);
                miles += piece.length() / 1609.344;
                for (const double grade : grades) {
                    const double part =
                        piece.length() / 1609.344 / static_cast<double>(grades.size());
                    const double level =
                        slow::miles_per_hour(road, profile, season, true, district.assumptions);
                    const double burden = in_pounds_per_horsepower(profile.loaded_per_power);
                    hours[0] += part / slow::climbing_mph(level, burden, grade);
                    hours[1] += part / slow::climbing_mph(level, burden, -grade);
                    steepest = std::max(steepest, std::abs(grade) * 100);
                }
            }
            const double time = road.one_way == OneWay::forward    ? hours[0]
                                : road.one_way == OneWay::backward ? hours[1]
                                                                   : std::max(hours[0], hours[1]);
            const auto pace =
                routing::road_pace(district, routed.network.network, RoadIndex(r), profile, season);
            CAPTURE(seed, r);
            REQUIRE(in_mph(pace.average) == Approx(miles / time));
            REQUIRE(static_cast<double>(pace.grade_pct.value_or(0.0F)) ==
                    Approx(steepest).margin(1e-4));
        }
    }
}
