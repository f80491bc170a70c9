// Portable tanks in line at one dump site: what counts, what siphons let the draft have.
#include "analyzer/supply/places/tank_line.h"

#include <random>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

Scene scene_of(const OneDumpSite& scene) {
    return scene_at(scene.situation(), profile_of_units(scene.district, scene.profiles),
                    roster(scene.district, PeriodIndex(0), ""), scene.trips.hose_lays[0][0],
                    minutes(12.5));
}

double storage_of(const OneDumpSite& scene) { return in_gallons(*scene_of(scene).set_up.storage); }
double cap_of(const OneDumpSite& scene) { return in_gpm(*scene_of(scene).set_up.flow_cap); }

TankLine drawn_line(std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    TankLine line{.tanks = {},
                  .used = 0,
                  .siphons = 1,
                  .siphon = gpm(between(200, 1500)),
                  .drive_water = gpm(between(0, 300)),
                  .draft = gpm(between(300, 2000))};
    line.tanks.resize(1 + random() % 6);
    for (Volume& tank : line.tanks) {
        tank = gallons(between(500, 3500));
    }
    return line;
}

}  // namespace

// T1 and T3 bring a tank of 2,500 gal each: 2,332 above the strainer, to a tenth of a gallon.
TEST_CASE("without a siphon only the draft tank counts", "[unit]") {
    OneDumpSite scene;
    CHECK(storage_of(scene) == Approx(2331.6).margin(0.1));
    CHECK(cap_of(scene) == 1500.0);
    SECTION("an engine that drafts brings one") { scene.district.units[1].jet_siphons = 1; }
    SECTION("a tanker brings two, of which one runs") { scene.district.units[5].jet_siphons = 2; }
    CHECK(scene_of(scene).siphon_of.valid() == (storage_of(scene) > 3000));
    if (scene_of(scene).siphon_of.valid()) {
        CHECK(storage_of(scene) == Approx(2 * 2331.6).margin(0.2));
        CHECK(cap_of(scene) == 1350.0);  // the pump less 150 of drive water; 1,600 can be moved
    }
}

TEST_CASE("a siphon that comes after the start does not count", "[unit]") {
    OneDumpSite scene;
    scene.district.periods[0].turnout_volunteer = minutes(40);
    scene.district.units[3].jet_siphons = 1;
    CHECK_FALSE(scene_of(scene).siphon_of.valid());
}

TEST_CASE("what a siphon moved when it was timed goes before the planning figure", "[unit]") {
    OneDumpSite scene;
    scene.district.units[2].jet_siphons = 1;
    scene.district.units[2].siphon = gpm(500);
    CHECK(cap_of(scene) == 1000.0);  // 2 x 500
    scene.district.units[2].siphon = gpm(1200);
    CHECK(cap_of(scene) == 1350.0);
}

TEST_CASE("engines that run fill sites bring nothing to the dump site", "[unit]") {
    OneDumpSite scene;
    scene.district.units.push_back(unit_of("E3", UnitKind::engine, 1000));
    scene.district.units.back().jet_siphons = 1;
    scene.district.units.back().portable_tank = gallons(2500);
    scene.refresh();
    CHECK(storage_of(scene) == Approx(2331.6).margin(0.1));
}

TEST_CASE("a line that a weak siphon would hold down is not drawn from", "[unit]") {
    OneDumpSite scene;
    const HeldFlow one_tank = scene.supply().cautious;
    scene.district.units[2].jet_siphons = 1;
    scene.district.units[2].siphon = gpm(100);
    REQUIRE(cap_of(scene) == 200.0);
    REQUIRE(one_tank > tenths_of_gpm(2000));
    CHECK(scene.supply().cautious == one_tank);
}

TEST_CASE("where siphons hold the flow down, transfer is the limit and one more gains", "[unit]") {
    Incident incident;
    incident.fill_sites = {
        {.places = 2, .flows = {}, .pump = gpm(4000), .ready = {}, .usable = {}, .inflow = {}}};
    Tanker tanker;
    tanker.delivered = gallons(2700);
    tanker.refilled = gallons(3000);
    tanker.fill_limit = tanker.offload = gpm(2000);
    tanker.leg = {minutes(1), minutes(1)};
    incident.tankers.assign(8, tanker);
    incident.dump_site.offload_slots = 2;
    const TankLine line{.tanks = std::vector(3, gallons(2332)),
                        .used = 3,
                        .siphons = 1,
                        .siphon = gpm(800),
                        .drive_water = gpm(150),
                        .draft = gpm(1500)};
    incident.dump_site = with_line(incident.dump_site, line);
    const Window window{minutes(30), minutes(120)};
    const HeldFlow flow = sustained_flow(incident, window);
    REQUIRE(flow == tenths_of_gpm(8000));
    const std::vector<Gain> all = gains(incident, line, window, flow);
    CHECK(binding_limit(all) == Limit::transfer);
    for (const Gain& gain : all) {
        CHECK((gain.flow > HeldFlow{}) == (gain.limit == Limit::transfer));
        if (gain.limit == Limit::transfer) {
            CHECK(in_tenths(gain.flow) == 4000);  // the pump less the drive water of two: 1,200
        }
    }
}

TEST_CASE("a longer line stores more and lets the draft have no more", "[property]") {
    std::mt19937 random(41);
    for (int i = 0; i < 500; ++i) {
        TankLine line = drawn_line(random);
        line.used = 1;
        DrawnLine shorter = drawn_from(line);
        CHECK(shorter.cap() == line.draft);
        while (line.used < line.tanks.size()) {
            ++line.used;
            const DrawnLine longer = drawn_from(line);
            CHECK(longer.storage > shorter.storage);
            CHECK(*longer.cap() <= *shorter.cap() + gpm(1e-9));
            CHECK(*longer.cap() >= gpm(0));
            shorter = longer;
        }
    }
}

TEST_CASE("blanking tanks or siphons never raises a flow", "[property]") {
    OneDumpSite full;
    for (std::size_t unit = 2; unit < 6; ++unit) {
        full.district.units[unit].tank = gallons(2500);  // one kind: for others no order is proved
    }
    full.district.units[2].jet_siphons = 1;
    full.district.units[3].portable_tank = gallons(3000);
    for (const double siphon : {150.0, 300.0, 450.0, 800.0}) {
        full.district.units[2].siphon = gpm(siphon);
        const HeldFlow most = full.supply().cautious;
        OneDumpSite none = full;
        none.district.units[2].jet_siphons = 0;
        CHECK(none.supply().cautious <= most);
        OneDumpSite fewer = full;
        fewer.district.units[3].portable_tank = gallons(0);
        CHECK(fewer.supply().cautious <= most);
    }
}
