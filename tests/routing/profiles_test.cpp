#include "routing/profiles.h"

#include <catch2/catch.hpp>

#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;

namespace {

AsciiRegion with_station() {
    AsciiRegion region("S   A   B");
    region.station('S');
    region.road("SAB");
    return region;
}

std::vector<std::string> names(const std::vector<Profile>& listed) {
    std::vector<std::string> list;
    for (const Profile& profile : listed) {
        list.push_back(profile.name);
    }
    return list;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("unknown weights take the stated estimates") {
    Unit tanker;
    tanker.kind = UnitKind::tanker;
    tanker.tank = gallons(2500);
    const auto size = routing::vehicle_size(tanker, Assumptions{});
    CHECK(in_pounds(size.likely_loaded) == Approx(47'000));
    CHECK(in_pounds(size.likely_empty) == Approx(47'000 - 8.34 * 2500));
    CHECK(in_feet(size.width) == Approx(8.5));
    CHECK(in_feet(size.height) == Approx(13.5));

    Unit engine;
    engine.kind = UnitKind::engine;
    engine.tank = gallons(1000);
    CHECK(in_pounds(routing::vehicle_size(engine, Assumptions{}).likely_loaded) == Approx(40'000));
}

TEST_CASE("an unknown weight opens no posted bridge, unless the district gives its estimate") {
    // 86,000 lb: the gross weight of emergency vehicles on Interstates, 23 U.S.C. 127(r), from
    // memory.
    Unit tanker;
    tanker.kind = UnitKind::tanker;
    tanker.tank = gallons(2500);
    Assumptions assumptions;
    CHECK(in_pounds(routing::vehicle_size(tanker, assumptions).loaded) == Approx(86'000));
    CHECK(in_pounds(routing::vehicle_size(tanker, assumptions).empty) == Approx(86'000));

    assumptions.given = {"tanker_chassis_lb"};
    CHECK(in_pounds(routing::vehicle_size(tanker, assumptions).loaded) == Approx(47'000));
    Unit engine;
    engine.kind = UnitKind::engine;
    CHECK(in_pounds(routing::vehicle_size(engine, assumptions).loaded) == Approx(86'000));

    engine.loaded = pounds(36'000);
    CHECK(in_pounds(routing::vehicle_size(engine, assumptions).loaded) == Approx(36'000));

    District district;
    tanker.id = "T1";
    district.units = {tanker};
    Profile profile{.members = {UnitIndex(0)}, .loaded = pounds(86'000), .empty = pounds(86'000)};
    CHECK(routing::weight_in_words(profile, district) ==
          "weight not known (T1): no posted bridge is open");
    district.units[0].loaded = profile.loaded = pounds(47'000);
    profile.empty = pounds(26'150);
    CHECK(routing::weight_in_words(profile, district) == "47000 lb loaded, 26150 lb empty");
}

TEST_CASE("of two weights that contradict each other the heavier counts") {
    Unit tanker;
    tanker.kind = UnitKind::tanker;
    tanker.tank = gallons(2000);
    tanker.empty = pounds(40'000);
    CHECK(in_pounds(routing::vehicle_size(tanker, Assumptions{}).loaded) ==
          Approx(40'000 + 8.34 * 2000));
    tanker.loaded = pounds(38'000);
    CHECK(in_pounds(routing::vehicle_size(tanker, Assumptions{}).loaded) == Approx(40'000));
}

TEST_CASE("unknown power is the stated estimate") {
    Unit unit;
    unit.kind = UnitKind::tanker;
    Assumptions assumptions;
    assumptions.tanker_power = horsepower(300);
    CHECK(in_horsepower(routing::vehicle_size(unit, assumptions).power) == 300);
    unit.kind = UnitKind::engine;
    CHECK(in_horsepower(routing::vehicle_size(unit, assumptions).power) == 350);
    unit.power = horsepower(430);
    CHECK(in_horsepower(routing::vehicle_size(unit, assumptions).power) == 430);
}

TEST_CASE("a large tanker is planned at 60 mph at most, whatever its list and the cap say") {
    // NFPA 1901 road test limits, secondary source: a tank over 1,250 gal or more than 50,000 lb.
    Assumptions assumptions;
    assumptions.speed_cap = mph(68);
    Unit unit;
    unit.kind = UnitKind::tanker;
    unit.top_speed = mph(66);
    unit.loaded = pounds(50'000);
    unit.tank = gallons(1250);
    CHECK(in_mph(routing::top_speed(unit, assumptions)) == 66);
    unit.tank = gallons(1251);
    CHECK(in_mph(routing::top_speed(unit, assumptions)) == 60);
    unit.tank = gallons(1000);
    unit.loaded = pounds(50'001);
    CHECK(in_mph(routing::top_speed(unit, assumptions)) == 60);
    unit.top_speed = mph(55);
    CHECK(in_mph(routing::top_speed(unit, assumptions)) == 55);
    assumptions.speed_cap = mph(50);
    unit.top_speed = std::nullopt;
    CHECK(in_mph(routing::top_speed(unit, assumptions)) == 50);
}

TEST_CASE("a profile climbs as its weakest member, loaded and empty, and power makes none") {
    AsciiRegion region = with_station();
    Unit& first = region.unit(UnitKind::tanker, "T1", 'S');
    first.loaded = pounds(40'000);
    first.empty = pounds(30'000);
    first.power = horsepower(250);
    Unit& second = region.unit(UnitKind::tanker, "T2", 'S');
    second.loaded = pounds(60'000);
    second.empty = pounds(32'000);
    second.power = horsepower(400);
    const auto profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"T1, T2"});
    CHECK(in_pounds_per_horsepower(profiles[0].loaded_per_power) == Approx(160));
    CHECK(in_pounds_per_horsepower(profiles[0].empty_per_power) == Approx(120));
}

TEST_CASE("vehicles that no road tells apart share a profile, engines apart from tankers") {
    AsciiRegion region = with_station();
    region.unit(UnitKind::tanker, "T1", 'S').loaded = pounds(30'000);
    region.unit(UnitKind::engine, "E1", 'S').loaded = pounds(30'000);
    region.unit(UnitKind::tanker, "T2", 'S').loaded = pounds(60'000);
    region.unit(UnitKind::other, "U1", 'S');
    const auto profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"E1", "T1, T2"});
    CHECK(in_pounds(profiles[1].loaded) == Approx(60'000));
}

TEST_CASE("a posted bridge tells heavy and light tankers apart") {
    AsciiRegion region = with_station();
    region.district.roads[0].weight_limit = pounds(40'000);
    region.unit(UnitKind::tanker, "T1", 'S').loaded = pounds(30'000);
    region.unit(UnitKind::tanker, "T2", 'S').loaded = pounds(60'000);
    region.unit(UnitKind::tanker, "T3", 'S').loaded = pounds(40'000);
    const auto profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"T1, T3", "T2"});
    CHECK(routing::tanker_profiles(profiles) == std::vector{ProfileIndex(0), ProfileIndex(1)});
    CHECK(routing::response_profile(profiles) == ProfileIndex(0));
}

TEST_CASE("a slow vehicle has a profile of its own, above the cap all are alike") {
    AsciiRegion region = with_station();
    region.unit(UnitKind::tanker, "T1", 'S').top_speed = mph(65);
    region.unit(UnitKind::tanker, "T2", 'S').top_speed = mph(55);
    region.unit(UnitKind::tanker, "T3", 'S').top_speed = mph(40);
    const auto profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"T1, T2", "T3"});
    CHECK(in_mph(profiles[1].top_speed) == Approx(40));
}

TEST_CASE("too many groups are merged where the members lose least, and take the worst of each") {
    AsciiRegion region = with_station();
    region.district.roads[0].weight_limit = pounds(40'000);
    region.road("AB").weight_limit = pounds(20'000);
    region.unit(UnitKind::engine, "E1", 'S');
    region.unit(UnitKind::tanker, "light", 'S').loaded = pounds(15'000);
    region.unit(UnitKind::tanker, "middle", 'S').loaded = pounds(39'000);
    region.unit(UnitKind::tanker, "heavy", 'S').loaded = pounds(60'000);
    region.unit(UnitKind::tanker, "heavy and slow", 'S').loaded = pounds(60'000);
    region.district.units.back().top_speed = mph(45);
    region.district.assumptions.max_profiles = 4;
    // The two heavy ones differ in speed only.
    auto profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"E1", "light", "middle", "heavy, heavy and slow"});
    CHECK(in_mph(profiles[3].top_speed) == Approx(45));
    region.district.assumptions.max_profiles = 1;
    profiles = routing::vehicle_profiles(region.district);
    CHECK(names(profiles) == Names{"E1", "light, middle, heavy, heavy and slow"});
    CHECK(in_pounds(profiles[1].loaded) == Approx(60'000));
    CHECK(in_pounds(profiles[1].empty) == Approx(60'000 - 8.34 * 2000));
}

TEST_CASE("a fleet of neither engines nor tankers has no profile") {
    AsciiRegion region = with_station();
    region.unit(UnitKind::other, "U1", 'S');
    const auto profiles = routing::vehicle_profiles(region.district);
    CHECK(profiles.empty());
    CHECK_FALSE(routing::response_profile(profiles));
}
