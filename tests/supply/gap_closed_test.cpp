// What closes the minutes between the first engine's tank and the draft.
#include <catch2/catch.hpp>

#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// The first engine's tank lasts 5 min; the draft takes longer.
OneDumpSite with_a_gap() {
    OneDumpSite scene;
    scene.district.assumptions.initial_attack = gpm(200);
    scene.district.assumptions.setup_draft = minutes(12);
    scene.refresh();
    return scene;
}

void give_pumps(OneDumpSite& scene, Flow pump) {
    for (Unit& unit : scene.district.units) {
        if (unit.kind == UnitKind::tanker) {
            unit.pump = pump;
        }
    }
    scene.refresh();
}

}  // namespace

TEST_CASE("a gap is told with what a tanker that nurses would leave of it, where one can") {
    OneDumpSite scene = with_a_gap();
    const ParcelSupply none_can = scene.supply();
    REQUIRE(none_can.gap);
    REQUIRE(in_tenths(*none_can.gap) > 0);
    CHECK_FALSE(none_can.gap_nursing);

    give_pumps(scene, gpm(500));
    const ParcelSupply one_can = scene.supply();
    if (!one_can.nurse.valid()) {
        REQUIRE(one_can.gap_nursing);
        CHECK(*one_can.gap_nursing < *one_can.gap);
        CHECK(in_gpm(one_can.nursing_flow) > 0);
        CHECK(in_gpm(one_can.nursing_flow) <= in_gpm(rounded_down(one_can.cautious)));
    } else {
        CHECK_FALSE(one_can.gap_nursing);
        CHECK(*one_can.gap < *none_can.gap);
    }
}

TEST_CASE("where there is no gap nothing is told of closing it") {
    OneDumpSite scene;
    scene.district.assumptions.initial_attack = gpm(20);
    give_pumps(scene, gpm(500));
    const ParcelSupply supply = scene.supply();
    REQUIRE(supply.gap);
    CHECK(in_tenths(*supply.gap) == 0);
    CHECK_FALSE(supply.gap_nursing);
}

namespace {

// 350 gpm is less than nurse_gpm: what such pumps give is nobody's guess.
OneDumpSite with_pumps(double pump_gpm, int need_gpm = 300) {
    OneDumpSite scene = with_a_gap();
    give_pumps(scene, gpm(pump_gpm));
    scene.needs[0]->flow = tenths_of_gpm(10 * need_gpm);
    return scene;
}

}  // namespace

TEST_CASE("where the need is held either way a tanker nurses that shortens the gap") {
    const ParcelSupply nursed = with_pumps(350).supply();
    const ParcelSupply bare = with_pumps(0).supply();
    REQUIRE(bare.state == SupplyState::held);
    REQUIRE(in_tenths(*bare.gap) > 0);
    CHECK(nursed.state == SupplyState::held);
    CHECK(nursed.nurse.valid());
    CHECK(*nursed.gap < *bare.gap);
    CHECK(nursed.cautious >= nursed.needed);
    CHECK_FALSE(nursed.gap_nursing);
    CHECK(nursed.later >= bare.later);
    CHECK(nursed.one_tanker_out >= bare.one_tanker_out);
}

TEST_CASE(
    "no tanker nurses where that rests on a rate that nobody timed and the plan without does not") {
    OneDumpSite scene = with_pumps(500);
    const ParcelSupply untimed = scene.supply();
    CHECK(untimed.state == SupplyState::held);
    CHECK_FALSE(untimed.nurse.valid());
    CHECK(untimed.evidence == Evidence::declared);
    REQUIRE(untimed.gap_nursing);
    CHECK(*untimed.gap_nursing < *untimed.gap);

    scene.district.assumptions.given = {"nurse_gpm"};
    const ParcelSupply timed = scene.supply();
    CHECK(timed.nurse.valid());
    CHECK(timed.evidence == Evidence::declared);
    CHECK(*timed.gap == *untimed.gap_nursing);
    CHECK(rounded_down(timed.cautious) == untimed.nursing_flow);
}

TEST_CASE("a gap is not closed at the cost of the need") {
    int nursed = 0;
    int held_without = 0;
    for (int need = 50; need <= 1500; need += 10) {
        const auto supply_with = [&](double pump_gpm) {
            OneDumpSite scene = with_pumps(pump_gpm, need);
            scene.needs[0]->duration = minutes(10);  // the first loads decide
            return scene.supply();
        };
        const ParcelSupply supply = supply_with(210);
        const ParcelSupply bare = supply_with(0);
        CAPTURE(need);
        CHECK(severity_of(supply.state) <= severity_of(bare.state));
        nursed += supply.state == SupplyState::held && supply.nurse.valid() ? 1 : 0;
        held_without += supply.state == SupplyState::held && !supply.nurse.valid() ? 1 : 0;
    }
    CAPTURE(nursed, held_without);
    CHECK(nursed > 0);
    CHECK(held_without > 0);
}

TEST_CASE("what is held and by whom is the same where only the flow is told") {
    for (const double pump : {0.0, 350.0, 500.0}) {
        const OneDumpSite scene = with_pumps(pump);
        Situation flow_alone = scene.situation();
        flow_alone.told = Told::flow;
        const ParcelSupply brief = assess(flow_alone, scene.needs, scene.arrivals, Work{}).at(0);
        const ParcelSupply whole = scene.supply();
        CHECK(brief.state == whole.state);
        CHECK(brief.cautious == whole.cautious);
        CHECK(brief.nurse == whole.nurse);
        CHECK(brief.gap == whole.gap);
    }
}

TEST_CASE("a place is told the same beside others of its case as alone") {
    int nursed = 0;
    int not_nursed = 0;
    for (int need = 100; need <= 1500; need += 50) {
        CAPTURE(need);
        OneDumpSite scene = with_pumps(210, need);
        scene.needs[0]->duration = minutes(10);
        const ParcelSupply alone = scene.supply();
        scene.district.parcels.push_back(Parcel{.id = "P2"});
        scene.refresh();
        scene.needs.assign(2, Need{tenths_of_gpm(10 * need), minutes(10), Evidence::declared});
        scene.needs[1]->flow = tenths_of_gpm(500);
        const ParcelSupply beside = scene.supply();
        CHECK(beside.cautious == alone.cautious);
        CHECK(beside.nurse == alone.nurse);
        CHECK(beside.earliest_start == alone.earliest_start);
        nursed += alone.nurse.valid() ? 1 : 0;
        not_nursed += alone.nurse.valid() ? 0 : 1;
    }
    CHECK(nursed > 0);
    CHECK(not_nursed > 0);
}
