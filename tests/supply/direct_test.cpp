// Direct supply and relay: worked examples of hose lines, and what they are good for.
#include "analyzer/supply/places/direct.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// Engines at one station that get to the source minute by minute, pumps of 1,250 gpm.
struct Lane {
    District district;
    std::vector<Arrival> engines;
    CountedSource source;

    Lane(std::initializer_list<double> feet_of_5in) {
        double minute = 10.0;
        for (const double hose : feet_of_5in) {
            Unit unit;
            unit.kind = UnitKind::engine;
            unit.pump = gpm(1250);
            unit.hose =
                HoseLoad{.hose_2_5in = {}, .hose_3in = {}, .hose_4in = {}, .hose_5in = feet(hose)};
            district.units.push_back(unit);
            engines.push_back({UnitIndex(district.units.size() - 1), ProfileIndex(0), minutes(2),
                               minutes(minute)});
            minute += 2.0;
        }
        source.rate = gpm(1500);
    }

    std::vector<HoseLine> lines(std::size_t count, double lay_ft, double rise_ft = 0.0) const {
        return hose_lines(district, std::span(engines).first(count), source, feet(lay_ft),
                          feet(rise_ft), minutes(5), minutes(120));
    }
    // That gives most.
    std::optional<HoseLine> line(std::size_t count, double lay_ft, double rise_ft = 0.0) const {
        const std::vector<HoseLine> all = lines(count, lay_ft, rise_ft);
        const auto most = std::ranges::max_element(all, {}, &HoseLine::flow);
        return most == all.end() ? std::nullopt : std::optional(*most);
    }
};

// No shuttle, and 2,000 ft of hose: there after 1.5 + 6 + 5 min, ready after 3 min at the hydrant
// and 10 min of laying, at minute 25.5; with both slowed by 1 + 0.35 x 0.2 at minute 26.41.
OneDumpSite by_hose_alone() {
    OneDumpSite scene;
    for (Unit& unit : scene.district.units) {
        unit.portable_tank = gallons(0);  // no shuttle
    }
    scene.refresh();
    scene.trips.source_lays = {};
    scene.trips.source_lays.items.push_back({FillSiteIndex(0), feet(2000)});
    scene.trips.source_lays.close_row();
    return scene;
}

}  // namespace

// 185 psi, 20 psi residual, 20 ft of rise, 2,600 ft of 5-in hose: by hand from the friction formula
// of hydraulics/hose.h and the rating points of hydraulics/pump.h.
TEST_CASE("a long line carries what friction leaves, and a relay what the pumps give") {
    const Lane lane{1000, 1000, 800};
    CHECK_FALSE(lane.line(2, 2600, 20));  // 2,000 ft there
    const auto relay = lane.line(3, 2600, 20);
    REQUIRE(relay);
    CHECK(in_gpm(relay->flow) == Approx(1250 * 0.79));
    CHECK(relay->limit == Limit::engines);

    const Lane with_more_hose{1800, 1000, 800};
    const auto direct = with_more_hose.line(2, 2600, 20);
    REQUIRE(direct);
    CHECK(in_gpm(direct->flow) == Approx(866.9).margin(0.1));
    CHECK(direct->limit == Limit::supply_line);
    CHECK(in_minutes(direct->ready) == Approx(12 + 5 + 13));  // 5 min for each 1,000 ft
}

TEST_CASE(
    "a second line is a choice where it gives more, takes twice as long, and else is not laid") {
    const Lane lane{3000, 3000};
    const auto short_lay = lane.lines(2, 900);  // one line carries all that the pump gives
    REQUIRE(short_lay.size() == 1);
    CHECK(short_lay[0].lines == 1);
    CHECK(short_lay[0].limit == Limit::engines);
    CHECK(in_minutes(short_lay[0].work) == Approx(5 + 4.5));
    const auto long_lay = lane.lines(2, 2600, 20);
    REQUIRE(long_lay.size() == 2);
    CHECK(in_gpm(long_lay[0].flow) == Approx(866.9).margin(0.1));
    CHECK(in_minutes(long_lay[0].work) == Approx(5 + 13.0));
    CHECK(in_gpm(long_lay[1].flow) == Approx(1250 * 0.79));
    CHECK(in_minutes(long_lay[1].work) == Approx(5 + 26.0));
}

TEST_CASE("more hose never takes a line away", "[property]") {
    for (double hose = 500; hose <= 3000; hose += 250) {
        for (double more = 250; more <= 2000; more += 250) {
            for (double lay = 250; lay <= 4000; lay += 250) {
                const auto now = Lane{hose, 1000}.lines(2, lay);
                const auto then = Lane{hose + more, 1000}.lines(2, lay);
                CAPTURE(hose, more, lay);
                CHECK(std::ranges::all_of(now, [&](const HoseLine& line) {
                    return std::ranges::any_of(then, [&](const HoseLine& other) {
                        return other.flow >= line.flow && other.ready <= line.ready;
                    });
                }));
            }
        }
    }
}

TEST_CASE("a source gives no more than its rate, nor than its water lasts") {
    Lane lane{1000, 1000};
    lane.source.rate = gpm(600);
    CHECK(lane.line(2, 500)->limit == Limit::source_hydraulics);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(600.0));
    lane.source.usable = gallons(30'000);
    CHECK(lane.line(2, 500)->limit == Limit::source_volume);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(250.0));  // a 30,000-gal cistern in two hours
    lane.source.inflow = gpm(50);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(300.0));
}

TEST_CASE("a house too high above the source gets nothing") {
    const Lane lane{1000, 1000};
    const auto line = lane.line(2, 500, 400);  // 173 psi of height
    REQUIRE(line);
    CHECK(in_gpm(line->flow) == 0.0);
}

// There at 12.5, on the fire 1.5 min later with 200 gpm; the line stands at 12.5 + 13.
TEST_CASE("before a hose line stands the attack engine's own tank is all there is") {
    OneDumpSite scene = by_hose_alone();
    const auto gap_with = [&](double tank_gal) {
        scene.district.units[0].tank = gallons(tank_gal);
        return *scene.supply().gap;
    };
    CHECK(gap_with(1000) == rounded_up(minutes(25.5 - (14.0 + 5.0))));
    CHECK(gap_with(500) == rounded_up(minutes(25.5 - (14.0 + 2.5))));
    CHECK(gap_with(3000) == rounded_up(minutes(0)));
}

TEST_CASE("a hose line that is late holds nothing from the start, for the tank is empty by then") {
    OneDumpSite scene = by_hose_alone();
    Assumptions& assumptions = scene.district.assumptions;
    HeldFlow in_plan_time{};
    SECTION("the line itself") { assumptions.start_after_arrival = minutes(12.0); }
    SECTION("only the line with all stages slowed") {
        assumptions.start_after_arrival = minutes(13.5);
        in_plan_time = scene.supply().later;
    }
    const ParcelSupply supply = scene.supply();
    CHECK(supply.mode == SupplyMode::direct);
    CHECK(supply.first_at_site == UnitIndex(0));  // attacks, and the other pumps at the source
    CHECK(supply.makers == std::array{UnitIndex(1), UnitIndex(), UnitIndex(), UnitIndex()});
    CHECK(supply.state == SupplyState::late);
    CHECK(in_tenths(supply.later) > 0);
    CHECK(supply.sustained == in_plan_time);
    CHECK(in_tenths(supply.cautious) == 0);
    CHECK(supply.earliest_start == rounded_up(minutes(12.5 + 13.0 * 1.07)));

    // The incident run says the same of an engine with nothing but its tank.
    const Duration arrival = minutes(12.5);
    Incident engine_alone;
    engine_alone.dump_site.engine_tank = gallons(1000);
    engine_alone.dump_site.engine_arrives = arrival;
    engine_alone.dump_site.draft_ready = minutes(26.41);
    engine_alone.initial_attack = {assumptions.initial_attack,
                                   arrival + assumptions.initial_attack_after_arrival};
    const Window until_the_line{arrival + assumptions.start_after_arrival, minutes(0.4)};
    CHECK_FALSE(holds(engine_alone, until_the_line, tenths_of_gpm(1)));
    engine_alone.initial_attack.flow = gpm(0);
    CHECK(holds(engine_alone, until_the_line, tenths_of_gpm(1)));
}

namespace {

// By ticks: the engine draws from its own tank and from what is pumped into it, until the hose
// lies.
double dry_by_ticks(double ready, double attack, double tank, double draws, double feeds_from,
                    double water) {
    constexpr double tick = 1.0 / 512.0;
    double dry = 0.0;
    for (double now = attack; now < ready; now += tick) {
        const bool feeds = now >= feeds_from && water > 0.0;
        (feeds ? water : tank) -= draws * tick;
        dry += !feeds && tank < 0.0 ? tick : 0.0;
    }
    return dry;
}

}  // namespace

TEST_CASE("minutes without water are those that neither tank bridges", "[twin]") {
    for (const double feeds_from : {14.5, 19.0, 20.0, 24.0, 26.0}) {
        for (const double water : {0.0, 450.0, 1000.0, 2250.0}) {
            for (const double ready : {14.25, 18.0, 25.5, 40.0}) {
                CAPTURE(feeds_from, water, ready);
                NurseAtHouse nurse;
                nurse.feeds_from = minutes(feeds_from);
                nurse.water = gallons(water);
                const Duration dry =
                    dry_before(minutes(ready), minutes(14), gallons(1000), gpm(200), nurse);
                CHECK(in_minutes(dry) ==
                      Approx(dry_by_ticks(ready, 14, 1000, 200, feeds_from, water)).margin(0.02));
            }
        }
    }
}

// T1 is there at 12.5 min; 200 ft of hose take 1 min to lay, coupling another; of 2,500 gal it
// delivers 2,250, which last 11.25 min behind the engine's own 5, from minute 14 on to 30.25.
TEST_CASE("before a hose line stands a tanker feeds the engine, with hose that is left for that") {
    OneDumpSite scene = by_hose_alone();
    scene.needs[0]->flow = tenths_of_gpm(1000);
    scene.district.assumptions.start_after_arrival = minutes(20);
    const ParcelSupply bare = scene.supply();
    REQUIRE(bare.state == SupplyState::held);
    CHECK(*bare.gap == rounded_up(minutes(6.5)));
    CHECK_FALSE(bare.nurse.valid());
    scene.district.units[2].pump = gpm(350);
    CHECK_FALSE(scene.supply().nurse.valid());  // all hose lies to the source

    scene.district.units[0].hose->hose_4in += feet(201);
    const ParcelSupply nursed = scene.supply();
    CHECK(nursed.mode == SupplyMode::direct);
    CHECK(nursed.nurse == UnitIndex(2));
    CHECK(*nursed.gap == rounded_up(minutes(0)));
    CHECK(*bare.continuous == rounded_up(minutes(25.5)));
    CHECK(*nursed.continuous == rounded_up(minutes(14.5)));
    CHECK(nursed.cautious == bare.cautious);

    scene.district.units[2].tank = gallons(500);  // 450 last 2.25 min
    CHECK(*scene.supply().gap == rounded_up(minutes(25.5 - 19.0 - 2.25)));
    scene.district.units[2].pump = gpm(150);  // less than the attack draws
    CHECK_FALSE(scene.supply().nurse.valid());

    scene.district.units[2].pump = gpm(500);  // what it pumps off is the default
    const ParcelSupply untimed = scene.supply();
    CHECK_FALSE(untimed.nurse.valid());
    REQUIRE(untimed.gap_nursing);
    CHECK(*untimed.gap_nursing == rounded_up(minutes(25.5 - 19.0 - 2.25)));
    CHECK(untimed.nursing_flow == rounded_down(untimed.cautious));
}
