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
    if (one_can.nursing == 0) {
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
