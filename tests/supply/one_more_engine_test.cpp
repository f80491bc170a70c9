// What one more engine gains, against a run on the district with that engine in it.
#include "analyzer/supply/places/one_more_engine.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/supply/one_dump_site.h"
#include "tests/supply/random_incidents.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// A suction point: no engine, no water.
WaterSource suction_point(std::string id, std::string system) {
    WaterSource source;
    source.id = std::move(id);
    source.kind = SourceKind::dry_hydrant;
    source.standing = Standing::tested;
    source.system = std::move(system);
    source.rate = gpm(600);
    source.places = 1;
    source.usable = UsableWater::unlimited();
    return source;
}

void add_engine(OneDumpSite& scene, double turnout_min, std::optional<int> crew = 4) {
    scene.district.units.push_back(
        unit_of("E" + std::to_string(scene.district.units.size()), UnitKind::engine, 1000));
    scene.district.staffing.push_back({.unit = UnitIndex(scene.district.units.size() - 1),
                                       .station = {},
                                       .period = PeriodIndex(0),
                                       .crew = crew,
                                       .turnout = minutes(turnout_min)});
}

// The district with another engine like the last that is there by the start, 27.5 min. Drive and
// handling take 6.5 min.
OneDumpSite with_engine_like_the_last(OneDumpSite scene) {
    const Staffing* last = nullptr;
    for (const Staffing& row : scene.district.staffing) {
        const bool engine = at(scene.district.units, row.unit).kind == UnitKind::engine;
        const bool there = in_minutes(*row.turnout) + 6.5 <= 27.5;
        const bool later =
            last == nullptr || in_minutes(*row.turnout) >= in_minutes(*last->turnout);
        last = engine && there && later ? &row : last;
    }
    REQUIRE(last != nullptr);
    Staffing more = *last;
    scene.district.units.push_back(at(scene.district.units, last->unit));
    more.unit = UnitIndex(scene.district.units.size() - 1);
    scene.district.staffing.push_back(more);
    return scene;
}

// Without the two engines of the drawn district.
OneDumpSite tankers_only() {
    OneDumpSite scene;
    auto& units = scene.district.units;
    units.erase(units.begin(), units.begin() + 2);
    for (Unit& unit : units) {
        unit.crew = 2;
    }
    scene.arrivals.assign(1, tenths_of_second(7500));
    return scene;
}

int gain_of(const ParcelSupply& supply) { return in_gpm(supply.gain_engine); }

// Whole gpm, rounded down; less than half a gpm is none.
int gained(HeldFlow with, HeldFlow without) {
    const int more = in_tenths(with) - in_tenths(without);
    return more < no_gain_below ? 0 : more / 10;
}

void check_by_added_engine(OneDumpSite scene) {
    scene.refresh();
    const ParcelSupply supply = scene.supply();
    OneDumpSite more = with_engine_like_the_last(scene);
    more.refresh();
    CHECK(gain_of(supply) == gained(more.supply().sustained, supply.sustained));
}

}  // namespace

TEST_CASE("one more engine runs the fill site that nobody is left for", "[unit]") {
    OneDumpSite scene = tankers_only();
    add_engine(scene, 6);
    add_engine(scene, 8);
    scene.district.sources = {suction_point("D1", "pond")};
    scene.refresh();
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::tank_only);
    CHECK(supply.limit == Limit::engines);
    CHECK(gain_of(supply) > 200);
    check_by_added_engine(scene);
}

TEST_CASE("one more engine drafts where only one comes", "[unit]") {
    OneDumpSite scene = tankers_only();
    add_engine(scene, 6);
    scene.refresh();
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::tank_only);
    CHECK(supply.limit == Limit::engines);
    CHECK(gain_of(supply) > 300);
    check_by_added_engine(scene);
}

TEST_CASE("one more engine opens a second fill site", "[unit]") {
    OneDumpSite scene = tankers_only();
    add_engine(scene, 6);
    add_engine(scene, 6);
    add_engine(scene, 6);
    scene.district.sources = {suction_point("D1", "pond"), suction_point("D2", "river")};
    for (WaterSource& source : scene.district.sources) {
        source.rate = gpm(250);
    }
    scene.refresh();
    const ParcelSupply supply = scene.supply();
    CHECK(supply.mode == SupplyMode::shuttle);
    CHECK(supply.fill_sites() == 1);
    CHECK(gain_of(supply) > 100);
    check_by_added_engine(scene);
}

TEST_CASE("one more engine gains nothing where it has nothing to do", "[unit]") {
    OneDumpSite scene = tankers_only();
    for (const double turnout : {6.0, 6.0, 7.0, 8.0, 9.0}) {
        add_engine(scene, turnout);
    }
    scene.refresh();
    CHECK(scene.supply().mode == SupplyMode::shuttle);
    CHECK(gain_of(scene.supply()) == 0);
    check_by_added_engine(scene);
}

TEST_CASE("one more engine stands in the line of a relay", "[unit]") {
    OneDumpSite scene = tankers_only();
    add_engine(scene, 6);
    add_engine(scene, 6);
    for (Unit& unit : scene.district.units) {
        if (unit.kind == UnitKind::engine) {
            unit.hose->hose_4in = feet(900);
        }
    }
    const auto lay = [](OneDumpSite& one) {
        one.refresh();
        one.trips.source_lays = {};
        one.trips.source_lays.items.push_back({FillSiteIndex(0), feet(2400)});
        one.trips.source_lays.close_row();
    };
    lay(scene);
    const ParcelSupply supply = scene.supply();
    CHECK(supply.mode == SupplyMode::shuttle);  // 1,800 ft of hose there
    OneDumpSite more = with_engine_like_the_last(scene);
    lay(more);
    const ParcelSupply with = more.supply();
    CHECK(with.mode == SupplyMode::relay);
    CHECK(gain_of(supply) > 0);
    CHECK(gain_of(supply) == gained(with.sustained, supply.sustained));
}

TEST_CASE("one more engine gains what a run on the district with it gains", "[property]") {
    Dice dice(20261130);
    int gaining = 0;
    int naming = 0;
    for (int draw = 0; draw < 150; ++draw) {
        CAPTURE(draw);
        OneDumpSite scene = tankers_only();
        add_engine(scene, 6);
        for (int more = dice.whole(0, 4); more > 0; --more) {
            add_engine(scene, dice.whole(6, 30),
                       dice.chance(0.7) ? std::optional(dice.whole(2, 5)) : std::nullopt);
        }
        scene.district.sources.clear();
        for (int number = dice.whole(1, 3); number > 0; --number) {
            const std::string name = std::to_string(number);
            scene.district.sources.push_back(suction_point("D" + name, "water " + name));
            scene.district.sources.back().rate = gpm(dice.whole(2, 9) * 100);
            if (dice.chance(0.4)) {
                scene.district.sources.back().kind = SourceKind::hydrant;
            }
        }
        check_by_added_engine(scene);
        scene.refresh();
        const ParcelSupply supply = scene.supply();
        gaining += gain_of(supply) > 0 ? 1 : 0;
        const bool largest = supply.gain_engine > *std::ranges::max_element(supply.gains);
        if (largest && supply.limit != Limit::supply_line) {
            CHECK(supply.limit == Limit::engines);
            ++naming;
        }
    }
    CHECK(gaining > 30);
    CHECK(naming > 5);
}
