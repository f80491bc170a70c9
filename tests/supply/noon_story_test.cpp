// Tuesday at noon: few people, little comes, and nothing is done by anybody twice. The flows of
// this story are in tests/app/shuttle_stories_test.cpp.
#include <catch2/catch.hpp>

#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/roster.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// Of two people at minute 14.5, a tanker at 15.5, by automatic aid a tanker at 24 and an engine of
// three at 22; a hydrant of 600 gpm. Handling and drive take 6.5 min.
struct Noon : OneDumpSite {
    Noon() {
        district.units = {
            unit_of("E1", UnitKind::engine, 1000), unit_of("Aid engine", UnitKind::engine, 1000),
            unit_of("T1", UnitKind::tanker, 2500), unit_of("Aid tanker", UnitKind::tanker, 1800)};
        district.units[2].portable_tank = gallons(5000);
        district.units[2].portable_tanks = 2;
        district.units[2].jet_siphons = 1;
        comes(0, 14.5, 2);
        comes(1, 22.0, 3);
        comes(2, 15.5, 1);
        comes(3, 24.0, 1);
        district.sources[0].rate = gpm(600);
        district.sources[0].places = 1;
        refresh();
        arrivals[0] = tenths_of_second(8700);
    }

    void comes(std::size_t unit, double minute, int crew) {
        district.staffing.push_back({.unit = UnitIndex(unit),
                                     .station = {},
                                     .period = PeriodIndex(0),
                                     .crew = crew,
                                     .turnout = minutes(minute - 6.5)});
    }

    Scene here() const {
        return scene_at(situation(), profile_of_units(district, profiles),
                        roster(district, PeriodIndex(0), ""), trips.hose_lays[0][0], minutes(14.5));
    }
};

void refresh(Noon& noon) {
    noon.refresh();
    noon.arrivals[0] = tenths_of_second(8700);
}

}  // namespace

TEST_CASE("noon: seven people are there of the fifteen that a shuttle of two tankers takes") {
    const Noon noon;
    const ParcelSupply supply = noon.supply();
    CHECK(supply.mode == SupplyMode::shuttle);
    CHECK(supply.state == SupplyState::short_flow);
    CHECK(supply.tankers == 2);
    CHECK(supply.crew_there == 7);
    CHECK(supply.crew_needed == 15);  // "about 14, attack included"
    CHECK(in_tenths(supply.cautious) < 2500);
}

TEST_CASE("noon: a second slot to offload at is nobody's, and counts at night") {
    Noon noon;
    noon.district.assumptions.offload_slots = 2;
    const ParcelSupply thin = noon.supply();
    CHECK(thin.offload_slots == 1);
    CHECK(thin.cautious == Noon().supply().cautious);
    for (Staffing& row : noon.district.staffing) {
        row.crew = 5;  // night: 10 on engines, 4 beside each tanker's driver
    }
    CHECK(noon.supply().offload_slots == 2);
}

TEST_CASE("noon: no engine is used twice") {
    Noon noon;
    noon.district.sources[0].kind = SourceKind::dry_hydrant;
    refresh(noon);
    const ParcelSupply pond = noon.supply();  // one attacks, one drafts, nobody is at the pond
    CHECK(pond.state == SupplyState::tank_only);
    CHECK(pond.limit == Limit::engines);
    REQUIRE(pond.wheels_gal);
    CHECK(*pond.wheels_gal == Approx(1000 + 1000 + 2250 + 1620));
    CHECK(in_gpm(pond.gain_engine) > 100);
}

TEST_CASE("noon: who drafts and who runs the fill site make water, and who attacks does not") {
    Noon noon;
    CHECK(noon.supply().first_at_site == UnitIndex(0));
    CHECK(noon.supply().makers ==
          std::array{UnitIndex(1), UnitIndex(), UnitIndex(), UnitIndex()});  // a hydrant takes none
    noon.district.sources[0].kind = SourceKind::dry_hydrant;
    noon.district.sources[0].suction.lift = feet(5);
    noon.district.units.push_back(unit_of("E5", UnitKind::engine, 1000));
    noon.comes(4, 23.0, 3);
    refresh(noon);
    CHECK(noon.supply().mode == SupplyMode::shuttle);
    CHECK(noon.supply().makers == std::array{UnitIndex(1), UnitIndex(4), UnitIndex(), UnitIndex()});
}

TEST_CASE("noon: mutual aid does not come with the first alarm") {
    Noon noon;
    noon.district.units.push_back(unit_of("Mutual", UnitKind::tanker, 2500));
    noon.district.units.back().aid = Aid::mutual;
    refresh(noon);
    const Scene scene = noon.here();
    REQUIRE(scene.tankers.size() == 3);
    // Asked for ten minutes after the first engine's arrival, turnout 8, drive 5.
    CHECK(in_minutes(scene.tankers.back().at_scene) == Approx(14.5 + 10 + 8 + 5));
    CHECK(noon.supply().sustained > Noon().supply().sustained);
}
