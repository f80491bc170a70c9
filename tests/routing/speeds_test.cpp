#include "routing/speeds.h"

#include <catch2/catch.hpp>

using namespace farwater;
using routing::Load;

namespace {

struct Case {
    Road road;
    Profile profile;
    Season season;
    Assumptions assumptions;

    Case() {
        road.kind = RoadClass::paved;
        profile.loaded = pounds(47'000);
        profile.empty = pounds(26'150);
        profile.width = feet(8.5);
        profile.height = feet(11);
        profile.top_speed = mph(60);
    }
    double mph_at(Load load) const {
        return in_mph(planning_speed(road, profile, season, load, assumptions).speed);
    }
    bool posted() const {
        return planning_speed(road, profile, season, Load::loaded, assumptions).posted;
    }
    bool usable(Load load = Load::loaded) const {
        return may_use(road, profile, season, load, assumptions);
    }
};

}  // namespace

TEST_CASE("each road class has its planning speed, loaded and a tenth faster empty") {
    const auto [kind, expected] = GENERATE(table<RoadClass, double>({{RoadClass::state, 45},
                                                                     {RoadClass::paved, 35},
                                                                     {RoadClass::paved_lane, 30},
                                                                     {RoadClass::gravel, 25},
                                                                     {RoadClass::narrow, 20},
                                                                     {RoadClass::drive, 10}}));
    Case c;
    c.road.kind = kind;
    CHECK(c.mph_at(Load::loaded) == Approx(expected));
    CHECK(c.mph_at(Load::empty) == Approx(expected * 1.1));
    CHECK_FALSE(c.posted());
}

TEST_CASE("a posted limit lowers the speed and is never exceeded, a higher one changes nothing") {
    Case c;
    c.road.posted_speed = mph(30);
    CHECK(c.mph_at(Load::loaded) == Approx(30));
    CHECK(c.mph_at(Load::empty) == Approx(30));
    CHECK(c.posted());
    c.road.posted_speed = mph(55);
    CHECK(c.mph_at(Load::loaded) == Approx(35));
    CHECK_FALSE(c.posted());
}

TEST_CASE(
    "a gravel surface is no faster than gravel whatever the class, a paved one changes nothing") {
    Case c;
    c.road.kind = RoadClass::state;
    c.road.surface = Surface::gravel;
    CHECK(c.mph_at(Load::loaded) == Approx(25));
    c.road.kind = RoadClass::narrow;
    CHECK(c.mph_at(Load::loaded) == Approx(20));
    c.road.kind = RoadClass::gravel;
    c.road.surface = Surface::paved;
    CHECK(c.mph_at(Load::loaded) == Approx(25));
}

TEST_CASE("a season slows every road and never raises a speed above the posted limit") {
    Case c;
    c.season.speed_factor = 0.75;
    CHECK(c.mph_at(Load::loaded) == Approx(26.25));
    c.road.posted_speed = mph(20);
    CHECK(c.mph_at(Load::loaded) == Approx(15));
    c.season.speed_factor = 1.5;
    CHECK(c.mph_at(Load::loaded) == Approx(20));
}

TEST_CASE("the vehicle's top speed and the cap hold") {
    Case c;
    c.road.kind = RoadClass::state;
    c.assumptions.speed_state = mph(60);
    CHECK(c.mph_at(Load::empty) == Approx(50));
    c.profile.top_speed = mph(40);
    CHECK(c.mph_at(Load::empty) == Approx(40));
}

TEST_CASE("access lets apparatus in as the assumptions say, closed roads never") {
    Case c;
    CHECK(c.usable());
    for (const RoadAccess access :
         {RoadAccess::private_road, RoadAccess::gated, RoadAccess::unmaintained}) {
        c.road.access = access;
        CHECK_FALSE(c.usable());
    }
    c.assumptions.private_roads_usable = c.assumptions.gated_roads_usable =
        c.assumptions.unmaintained_roads_usable = true;
    for (const RoadAccess access :
         {RoadAccess::private_road, RoadAccess::gated, RoadAccess::unmaintained}) {
        c.road.access = access;
        CHECK(c.usable());
    }
    c.road.access = RoadAccess::closed;
    CHECK_FALSE(c.usable());
}

TEST_CASE("a season closes the access that it names and roads that are not maintained throughout") {
    Case c;
    c.assumptions.gated_roads_usable = true;
    c.road.access = RoadAccess::gated;
    c.season.closed_access = {RoadAccess::gated};
    CHECK_FALSE(c.usable());

    Case winter;
    winter.season.months = MonthSet{};
    winter.season.months.include(std::chrono::December);
    winter.season.months.include(std::chrono::January);
    CHECK(winter.usable());
    winter.road.maintained = MonthSet{};
    winter.road.maintained.include(std::chrono::December);
    CHECK_FALSE(winter.usable());
    winter.road.maintained.include(std::chrono::January);
    CHECK(winter.usable());
}

TEST_CASE("a posted weight stops the loaded tanker and lets the empty one pass") {
    Case c;
    c.road.weight_limit = short_tons(15);
    CHECK_FALSE(c.usable(Load::loaded));
    CHECK(c.usable(Load::empty));
    c.road.weight_limit = pounds(47'000);
    CHECK(c.usable(Load::loaded));
}

TEST_CASE("height and width stop what is larger, and only where they are known") {
    Case c;
    c.road.height_limit = feet(10.9);
    CHECK_FALSE(c.usable());
    c.road.height_limit = feet(11);
    CHECK(c.usable());
    c.road.width = feet(8);
    CHECK_FALSE(c.usable());
}

TEST_CASE("drive times are whole tenths of a second, rounded up, at least one") {
    CHECK(in_tenths(routing::drive_time(miles(1), mph(36))) == 1000);
    CHECK(in_tenths(routing::drive_time(miles(1), mph(35))) == 1029);
    CHECK(in_tenths(routing::drive_time(metres(0.001), mph(35))) == 1);
    CHECK(in_tenths(routing::drive_time(metres(0), mph(35))) == 1);
    CHECK_FALSE(reachable(routing::drive_time(miles(1), mph(0))));
    CHECK_FALSE(reachable(routing::drive_time(miles(1), mph(-5))));
    CHECK_FALSE(reachable(routing::drive_time(miles(1000), mph(5))));
}
