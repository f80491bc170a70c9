// The supply line from the dump site to the house: no water flows through it before it lies.
#include <catch2/catch.hpp>

#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// Both engines and the tanks' carriers are at the dump site by minute 12.5, each engine with 1,000
// ft of 4-in hose; tanks up at 15.5, draft set up at 20.5.
OneDumpSite with_hose(double feet_of_hose) {
    OneDumpSite scene;
    scene.trips.hose_lays.items[0].length = feet(feet_of_hose);
    return scene;
}

Duration draft_ready(const OneDumpSite& scene) {
    return working_of(scene.situation(), scene.needs, scene.arrivals, 0)
        .looked.at(0)
        .scene.set_up.draft_ready;
}

// E2 gets there so many minutes after the others.
void delay_draft_engine(OneDumpSite& scene, double by) {
    const double turnout = in_minutes(scene.district.assumptions.turnout_volunteer) + by;
    scene.district.staffing.push_back({.unit = UnitIndex(1),
                                       .station = {},
                                       .period = PeriodIndex(0),
                                       .crew = {},
                                       .turnout = minutes(turnout)});
}

}  // namespace

TEST_CASE("a line that lies before the draft is set up delays nothing", "[unit]") {
    CHECK(draft_ready(with_hose(200)) == minutes(20.5));
    CHECK(draft_ready(with_hose(1000)) == minutes(20.5));
    CHECK(draft_ready(with_hose(1600)) == minutes(20.5));  // 12.5 + 8
}

TEST_CASE("a draft waits for a line that takes longer, laid in lengths of 50 ft", "[unit]") {
    CHECK(draft_ready(with_hose(1800)) == minutes(21.5));  // 12.5 + 9
    CHECK(draft_ready(with_hose(1951)) == minutes(22.5));  // 2,000 ft
    OneDumpSite slow = with_hose(1000);
    slow.district.assumptions.lay_1000ft = minutes(15);
    CHECK(draft_ready(slow) == minutes(27.5));
}

TEST_CASE("a line is laid from when all of its hose is there", "[unit]") {
    OneDumpSite scene = with_hose(1000);
    scene.district.assumptions.lay_1000ft = minutes(15);
    delay_draft_engine(scene, 6);
    CHECK(draft_ready(scene) == minutes(27.5));  // E1 carries it all; E2 is there at 18.5
    scene.trips.hose_lays.items[0].length = feet(1200);
    CHECK(draft_ready(scene) == minutes(36.5));  // 18.5 + 18
    scene.district.units[0].hose = HoseLoad{};
    scene.trips.hose_lays.items[0].length = feet(1000);
    CHECK(draft_ready(scene) == minutes(33.5));  // all of it comes with E2
}

TEST_CASE("continuous water and the flow with a tanker out wait for the line too", "[unit]") {
    const ParcelSupply near = with_hose(1600).supply();
    const OneDumpSite scene = with_hose(2000);
    const ParcelSupply far = scene.supply();
    REQUIRE(near.continuous);
    REQUIRE(far.continuous);
    CHECK(in_tenths(*near.continuous) == 205);
    CHECK(in_tenths(*far.continuous) == 225);
    CHECK(far.cautious <= near.cautious);
    const ShuttleWorking look =
        working_of(scene.situation(), scene.needs, scene.arrivals, 0).looked.at(0);
    const auto without =
        set_up_without(scene.situation(), look.scene, look.scene.set_up, UnitIndex(2));
    REQUIRE(without);
    CHECK(without->draft_ready == minutes(22.5));
}
