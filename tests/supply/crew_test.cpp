// People by job, and fill sites that wait for them.
#include "analyzer/supply/places/crew.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/roster.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// Two weak hydrants of two systems, each of which opens a fill site of its own.
OneDumpSite two_weak_hydrants() {
    OneDumpSite scene;
    scene.district.sources[0].rate = gpm(300);
    scene.district.sources[0].system = "north";
    scene.district.sources.push_back(scene.district.sources[0]);
    scene.district.sources[1].id = "H2";
    scene.district.sources[1].system = "south";
    scene.refresh();
    return scene;
}

void give_crews(OneDumpSite& scene, int each) {
    for (Unit& unit : scene.district.units) {
        unit.crew = each;
    }
}

HeldFlow gain_of_crew(const ParcelSupply& supply) {
    for (std::size_t i = 0; i < relieved.size(); ++i) {
        if (relieved[i] == Limit::crew) {
            return tenths_of_gpm(in_gpm(supply.gains[i]) * 10);
        }
    }
    return {};
}

}  // namespace

// Attack 4 (29 CFR 1910.134: two inside, two outside), dump 3, fill 3, traffic 2, officer 1, one a
// tanker: common practice, no source.
TEST_CASE("people needed by job", "[unit]") {
    const Assumptions usual;
    CHECK(crew_needed(usual, 1, 4) == 17);
    CHECK(crew_needed(usual, 2, 4) == 20);
    CHECK(fill_sites_manned(usual, {.people = 19}, 4, 3) == 1);
    CHECK(fill_sites_manned(usual, {.people = 20}, 4, 3) == 2);
    CHECK(fill_sites_manned(usual, {.people = 23}, 4, 3) == 3);
    CHECK(fill_sites_manned(usual, {.people = 0}, 4, 3) == 1);
    CHECK(fill_sites_manned(usual, {.people = 0, .not_listed = 1}, 4, 3) == 3);
}

TEST_CASE("a second fill site is opened only with people for every job", "[unit]") {
    OneDumpSite scene = two_weak_hydrants();
    for (Unit& unit : scene.district.units) {
        unit.crew.reset();
    }
    const ParcelSupply not_listed = scene.supply();
    REQUIRE(not_listed.fill_sites() == 2);
    CHECK(not_listed.crew_not_listed == 6);
    give_crews(scene, 4);
    const ParcelSupply manned = scene.supply();
    CHECK(manned.fill_sites() == 2);
    CHECK(manned.crew_there == 24);
    CHECK(manned.crew_needed == 16 + manned.tankers);
    CHECK(manned.cautious == not_listed.cautious);
    CHECK(manned.engines_needed >= 2);
    give_crews(scene, 3);
    const ParcelSupply thin = scene.supply();
    CHECK(thin.fill_sites() == 1);
    CHECK(thin.crew_there == 18);
    CHECK(thin.cautious < manned.cautious);
    CHECK(in_tenths(gain_of_crew(thin)) > 0);
    CHECK(in_tenths(gain_of_crew(thin)) <=
          in_tenths(manned.sustained) - in_tenths(thin.sustained) + 10);
    CHECK(gain_of_crew(manned) == HeldFlow{});
}

TEST_CASE("whatever people there are, a second fill site has them with the tankers that it runs",
          "[property]") {
    OneDumpSite scene = two_weak_hydrants();
    for (int people = 6; people <= 36; ++people) {
        for (std::size_t i = 0; i < scene.district.units.size(); ++i) {
            scene.district.units[i].crew = (people + static_cast<int>(i)) / 6;
        }
        const ParcelSupply supply = scene.supply();
        CAPTURE(people, supply.crew_there, supply.tankers);
        REQUIRE(supply.crew_there == people);
        CHECK((supply.fill_sites() == 1 || supply.crew_there >= supply.crew_needed));
    }
}

TEST_CASE("more people never lower a flow", "[property]") {
    OneDumpSite scene = two_weak_hydrants();
    HeldFlow last{};
    for (int each = 1; each <= 6; ++each) {
        give_crews(scene, each);
        const HeldFlow flow = scene.supply().cautious;
        CHECK(flow >= last);
        last = flow;
    }
}

namespace {

// A strong hydrant, so that one slot is what limits four tankers.
OneDumpSite two_slots_wanted() {
    OneDumpSite scene;
    scene.district.assumptions.offload_slots = 2;
    scene.district.sources[0].rate = gpm(2000);
    for (Unit& unit : scene.district.units) {
        unit.offload = gpm(300);
    }
    scene.refresh();
    return scene;
}

// Since the alarm; handling and drive take 6.5 min.
void let_come_at(OneDumpSite& scene, std::size_t unit, double minute) {
    scene.district.staffing.push_back({.unit = UnitIndex(unit),
                                       .station = {},
                                       .period = PeriodIndex(0),
                                       .crew = {},
                                       .turnout = minutes(minute - 6.5)});
}

Scene scene_here(const OneDumpSite& scene) {
    return scene_at(scene.situation(), profile_of_units(scene.district, scene.profiles),
                    roster(scene.district, PeriodIndex(0), ""), scene.trips.hose_lays[0][0],
                    minutes(12.5));
}

}  // namespace

// Jobs besides drivers: attack 4, dump 3, fill 3, traffic 2, officer 1, second slot 2: 15 people.
TEST_CASE("a second slot is run from when there are people for it and every other job", "[unit]") {
    OneDumpSite scene = two_slots_wanted();
    give_crews(scene, 4);
    let_come_at(scene, 5, 40.0);             // T4
    const Scene manned = scene_here(scene);  // 8 + 3 x (4 - 1) by minute 12.5: 17
    CHECK(manned.set_up.offload_slots == 2);
    CHECK(manned.set_up.further_slots_from[0] == minutes(12.5));
    give_crews(scene, 3);
    const Scene later = scene_here(scene);  // 6 + 3 x 2 = 12, with T4 14
    CHECK(later.set_up.offload_slots == 1);
    scene.district.units[5].crew = 4;
    const Scene with_four = scene_here(scene);  // T4 brings four: 15 at minute 40
    CHECK(with_four.set_up.offload_slots == 2);
    CHECK(with_four.set_up.further_slots_from[0] == minutes(40));
    // A third slot takes two more, a second fill site three.
    scene.district.assumptions.offload_slots = 3;
    CHECK(scene_here(scene).set_up.offload_slots == 2);
    const Scene two = scene_here(scene);
    CHECK(incident_at(scene.situation(), two, 2).dump_site.offload_slots == 1);
}

TEST_CASE("without its people a second slot gains nothing, and they are what is missing",
          "[unit]") {
    OneDumpSite one = two_slots_wanted();
    one.district.assumptions.offload_slots = 1;
    give_crews(one, 3);
    OneDumpSite two = two_slots_wanted();
    give_crews(two, 3);
    const ParcelSupply without = one.supply();
    const ParcelSupply thin = two.supply();
    CHECK(thin.cautious == without.cautious);
    CHECK(thin.offload_slots == 1);
    give_crews(two, 5);
    const ParcelSupply manned = two.supply();
    CHECK(manned.offload_slots == 2);
    CHECK(manned.cautious > thin.cautious);
    CHECK(manned.crew_needed == 13 + 2 + manned.tankers);
    const int more = in_tenths(manned.sustained) - in_tenths(thin.sustained);
    CHECK(in_tenths(gain_of_crew(thin)) > 0);
    CHECK(in_tenths(gain_of_crew(thin)) <= more);
    CHECK(thin.limit != Limit::none);
    CHECK(gain_of_crew(manned) == HeldFlow{});
}

TEST_CASE("a crew that nobody lists never mans a second slot that listed people would not",
          "[property]") {
    for (int each = 1; each <= 6; ++each) {
        OneDumpSite listed = two_slots_wanted();
        give_crews(listed, each);
        const HeldFlow flow = listed.supply().cautious;
        for (std::size_t blank = 0; blank < listed.district.units.size(); ++blank) {
            OneDumpSite scene = listed;
            scene.district.units[blank].crew.reset();
            CAPTURE(each, blank);
            CHECK(scene.supply().cautious <= flow);
        }
    }
}

TEST_CASE("people who come late man the slot late: held less than from the beginning", "[unit]") {
    OneDumpSite early = two_slots_wanted();
    give_crews(early, 5);
    OneDumpSite late = early;
    late.district.assumptions.crew_attack += 8;  // 23 jobs beside drivers, 22 people without T4
    let_come_at(late, 5, 55.0);
    let_come_at(early, 5, 55.0);
    const ParcelSupply at_once = early.supply();
    const ParcelSupply at_55 = late.supply();
    CHECK(at_55.offload_slots == 2);
    CHECK(at_55.sustained < at_once.sustained);
    late.district.assumptions.offload_slots = 1;
    CHECK(late.supply().sustained <= at_55.sustained);
}
