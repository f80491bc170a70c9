#include "analyzer/supply/incident_run.h"

#include <limits>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/supply/handbook.h"
#include "tests/supply/incidents.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr Window two_hours_from_60{minutes(60), minutes(120)};

HeldFlow tenths(int value) { return tenths_of_gpm(value); }

}  // namespace

TEST_CASE("one tanker with a small tank leaves what the tank gives while it is away") {
    // 1,000 gal of storage, a 2,250-gal load: from the last gallon in to the next one flowing are
    // 0.5 + 3.0 + (1.0 + 2.5 + 1.0) + 3.5 + 1.0 = 12.5 minutes, so 1,000 / 12.5 = 80 gpm.
    Incident incident = bare_case(gallons(1000));
    incident.tankers = {usual_tanker(2500, 0)};
    incident.tankers[0].leg = {minutes(3.0), minutes(3.5)};
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(800));
    CHECK(holds(incident, two_hours_from_60, tenths(800)));
    CHECK_FALSE(holds(incident, two_hours_from_60, tenths(801)));
}

TEST_CASE("without tankers the engine tank is spread over the duration") {
    Incident incident = bare_case(std::nullopt);
    incident.dump_site.engine_tank = gallons(1000);
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(83));
    incident.dump_site.engine_tank = Volume{};
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(0));
    incident.fill_sites.clear();
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(0));
}

TEST_CASE("nothing is held from before the engine is there") {
    Incident incident = ordinary_case();
    CHECK(sustained_flow(incident, {minutes(12.4), minutes(120)}) == tenths(0));
    CHECK(sustained_flow(incident, {minutes(12.5), minutes(120)}) > tenths(0));
}

TEST_CASE("until the draft is up only the engine tank counts") {
    Incident incident = ordinary_case();
    incident.dump_site.draft_ready = minutes(22.5);
    // 1,000 gal from 12.5 to 22.5: 100 gpm, whatever stands in the portable tanks.
    CHECK(sustained_flow(incident, {minutes(12.5), minutes(60)}) == tenths(1000));
}

TEST_CASE("what arrives or is ready after the window changes nothing") {
    Incident incident = bare_case(gallons(5000));
    incident.dump_site.engine_tank = gallons(1200);
    const HeldFlow alone = sustained_flow(incident, two_hours_from_60);
    CHECK(alone == tenths(100));
    incident.tankers = {usual_tanker(2500, 180)};
    CHECK(sustained_flow(incident, two_hours_from_60) == alone);
    incident.tankers = {usual_tanker(2500, 60)};
    incident.fill_sites[0].ready = minutes(500);
    // One load beside the engine tank, in good time for the end of the window.
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths((12000 + 22500) / 120));
    incident.dump_site.draft_ready = minutes(500);
    CHECK(sustained_flow(incident, two_hours_from_60) == alone);
}

TEST_CASE("without room for a gallon only the load that is connected counts") {
    // The first load runs in as it is drawn; while the slot changes hands there is nothing.
    Incident incident = bare_case(Volume{});
    incident.tankers = {usual_tanker(2500, 0), usual_tanker(2500, 1)};
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(187));
    CHECK(sustained_flow(incident, {minutes(60), minutes(1000)}) == tenths(22));
}

TEST_CASE("a source gives what it holds and no more") {
    Incident incident = bare_case(std::nullopt);
    incident.tankers = {usual_tanker(2500, 0)};
    incident.fill_sites[0].usable = gallons(7499);
    // The first load and two refills, all in before minute 60: 3 x 2,250 / 120 = 56.25.
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(562));
    incident.fill_sites[0].usable = gallons(2499);
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(187));
    incident.fill_sites[0].usable = Volume{};
    CHECK(sustained_flow(incident, two_hours_from_60) == tenths(187));
}

TEST_CASE("what refills a source stretches the fills that wait for it") {
    // Nothing stored, 100 gpm in: the n-th refill of 2,500 gal is full at minute 25 n, and its load
    // flows 1.0 + 4.6 + 1.0 minutes later. Of all the moments when the next load begins the last
    // one, at 5 x 25 + 6.6, is the worst: the first load and four refills over 106.6 minutes.
    Incident incident = bare_case(std::nullopt);
    incident.tankers = {usual_tanker(2500, 0)};
    incident.fill_sites[0].usable = Volume{};
    incident.fill_sites[0].inflow = gpm(100);
    const Window window{minutes(25), minutes(110)};
    CHECK(sustained_flow(incident, window) == held(gpm(5 * 2250 / 106.6)));
}

TEST_CASE("the flow cap is the answer where it holds, rounded down to tenths") {
    Incident incident = ordinary_case();
    const HeldFlow uncapped = sustained_flow(incident, ordinary_window);
    incident.dump_site.flow_cap = gpm(123.456);
    CHECK(sustained_flow(incident, ordinary_window) == tenths(1234));
    CHECK_FALSE(holds(incident, ordinary_window, tenths(1235)));
    CHECK(lasts(incident, minutes(27.5), tenths(1235), minutes(60)) == Duration{});
    CHECK_FALSE(earliest_start(incident, tenths(1235), minutes(10), minutes(90)));
    incident.dump_site.flow_cap = gpm(5000);
    CHECK(sustained_flow(incident, ordinary_window) == uncapped);
    incident.dump_site.flow_cap = Flow{};
    CHECK(sustained_flow(incident, ordinary_window) == tenths(0));
}

TEST_CASE("past the knee a small tanker lowers what first in, first out can hold") {
    // One place, one slot, the same legs: the period is max(longest cycle, sum of fill visits, sum
    // of offload visits) and every tanker makes one trip in it (max-plus cycle mean). With half a
    // minute of handling each the five fill visits take 17.5 minutes: 11,250 / 17.5 = 642.9; a
    // sixth tanker of 1,500 gal makes it 12,600 / 20 = 630.
    Incident incident = bare_case(gallons(5000));
    for (const double tank : {2500.0, 2500.0, 3000.0, 2000.0, 2500.0}) {
        Tanker tanker = usual_tanker(tank, 0);
        tanker.fill_before = tanker.fill_after = minutes(0.5);
        tanker.offload_before = tanker.offload_after = minutes(0.5);
        tanker.leg = {minutes(4.0), minutes(4.0)};
        incident.tankers.push_back(tanker);
    }
    const Window long_window{minutes(60), minutes(6000)};
    CHECK(in_gpm(flow_of(sustained_flow(incident, long_window))) ==
          Approx(11250 / 17.5).epsilon(0.005));
    Tanker small = incident.tankers[0];
    small.delivered = gallons(1350);
    small.refilled = gallons(1500);
    incident.tankers.push_back(small);
    CHECK(in_gpm(flow_of(sustained_flow(incident, long_window))) ==
          Approx(12600 / 20.0).epsilon(0.005));
}

TEST_CASE("tankers are filled one after the other or together, whichever is better") {
    Incident incident = ordinary_case();
    FillSite& site = incident.fill_sites[0];
    const auto with_flows = [&](int flows) {
        site.flows = flows;
        return sustained_flow(incident, ordinary_window);
    };
    const auto best = [&] {
        site.flows.reset();
        return sustained_flow(incident, ordinary_window);
    };
    // The pump is the limit: the next one connects meanwhile, but only one is filled.
    CHECK(with_flows(1) > with_flows(2));
    CHECK(best() == with_flows(1));
    // The inlets are the limit: the pump feeds two at once, which six tankers can use.
    site.pump = gpm(1500);
    incident.tankers.push_back(usual_tanker(2500, 25));
    incident.tankers.push_back(usual_tanker(2500, 26));
    for (Tanker& tanker : incident.tankers) {
        tanker.fill_limit = gpm(500);
    }
    CHECK(with_flows(2) > with_flows(1));
    CHECK(best() == with_flows(2));
}

TEST_CASE("an initial attack draws from the same water") {
    Incident incident = ordinary_case();
    const Window from_17_5{minutes(17.5), minutes(120)};
    // 1,000 gal until the draft is up at 20: 400 gpm over 2.5 minutes.
    CHECK(sustained_flow(incident, from_17_5) == tenths(4000));
    // 200 gpm since minute 14 leaves 300 of them: 120 gpm.
    incident.initial_attack = {gpm(200), minutes(14)};
    CHECK(sustained_flow(incident, from_17_5) == tenths(1200));
    // It cannot begin before the engine is there: 5 minutes at 200 gpm empty the tank at 17.5.
    incident.initial_attack.from = Duration{};
    CHECK(sustained_flow(incident, from_17_5) == tenths(0));
    incident.initial_attack.flow = Flow{};
    CHECK(sustained_flow(incident, from_17_5) == tenths(4000));
}

TEST_CASE("the gap between tank water and continuous water is found and nursing closes it") {
    Incident incident = ordinary_case();
    incident.initial_attack = {gpm(200), minutes(14)};
    const FirstMinutes gap = first_minutes(incident, ordinary_window);
    CHECK(in_minutes(gap.tank_water) == Approx(14.0));
    REQUIRE(gap.continuous);
    CHECK(in_minutes(*gap.continuous) == Approx(20.0));
    CHECK(in_minutes(gap.dry) == Approx(1.0));  // 1,000 gal last from 14 to 19

    incident.dump_site.nursing_tankers = 1;
    const FirstMinutes nursed = first_minutes(incident, ordinary_window);
    REQUIRE(nursed.continuous);
    CHECK(in_minutes(*nursed.continuous) == Approx(14.5));  // arrives 13.5, one minute to hook up
    CHECK(nursed.dry == Duration{});
}

TEST_CASE("a tank that lasts until the draft leaves no gap") {
    Incident incident = ordinary_case();
    incident.initial_attack = {gpm(100), minutes(14)};
    const FirstMinutes clocks = first_minutes(incident, ordinary_window);
    REQUIRE(clocks.continuous);
    CHECK(in_minutes(*clocks.continuous) == Approx(20.0));
    CHECK(clocks.dry == Duration{});
}

TEST_CASE("an attack that runs dry at the end never gets continuous water") {
    Incident incident = bare_case(gallons(4000));
    incident.dump_site.engine_tank = gallons(500);
    incident.initial_attack = {gpm(200), minutes(10)};
    const Window window{minutes(20), minutes(20)};
    const FirstMinutes dry = first_minutes(incident, window);
    CHECK(in_minutes(dry.tank_water) == Approx(10.0));
    CHECK_FALSE(dry.continuous);
    CHECK(in_minutes(dry.dry) == Approx(27.5));  // from 12.5 to 40

    // One load of 2,250 gal flows from 16.0 on: dry from 12.5 to 16.0 and again from 27.25.
    incident.tankers = {usual_tanker(2500, 15)};
    incident.fill_sites[0].ready = minutes(100);
    const FirstMinutes twice = first_minutes(incident, window);
    CHECK_FALSE(twice.continuous);
    CHECK(in_minutes(twice.dry) == Approx(3.5 + 12.75));

    // A window that ends while the load lasts.
    const FirstMinutes once = first_minutes(incident, {minutes(20), minutes(7)});
    REQUIRE(once.continuous);
    CHECK(in_minutes(*once.continuous) == Approx(16.0));
    CHECK(in_minutes(once.dry) == Approx(3.5));
}

TEST_CASE("without an attack the clocks are the engine's and the first water that others bring") {
    Incident incident = ordinary_case();
    const FirstMinutes clocks = first_minutes(incident, ordinary_window);
    CHECK(clocks.tank_water == minutes(12.5));
    REQUIRE(clocks.continuous);
    CHECK(in_minutes(*clocks.continuous) == Approx(20.0));
    incident.tankers.clear();
    CHECK_FALSE(first_minutes(incident, ordinary_window).continuous);
}

TEST_CASE("while the attack waits for water it draws what runs in and no more") {
    // The engine tank is empty at 12.5, the load flows at 100 gpm from 16.0 on: the attack of 200
    // gpm takes it as it comes, so nothing of it is left at 20 and 1,850 gal are still to come.
    Incident incident = bare_case(gallons(4000));
    incident.dump_site.engine_tank = gallons(500);
    incident.initial_attack = {gpm(200), minutes(10)};
    incident.tankers = {usual_tanker(2500, 15)};
    incident.tankers[0].offload = gpm(100);
    incident.fill_sites[0].ready = minutes(100);
    CHECK(sustained_flow(incident, {minutes(20), minutes(18.5)}) == tenths(1000));
    CHECK(sustained_flow(incident, {minutes(20), minutes(37)}) == tenths(500));
    CHECK(in_minutes(first_minutes(incident, {minutes(0), minutes(20)}).dry) == Approx(7.5));
}

TEST_CASE("a nursing tanker hooks up to an engine, not before it") {
    Incident incident = bare_case(gallons(4000));
    incident.dump_site.engine_tank = gallons(100);
    incident.dump_site.engine_arrives = minutes(10);
    incident.dump_site.tanks_ready = incident.dump_site.draft_ready = minutes(30);
    incident.dump_site.nursing_tankers = 1;
    incident.tankers = {usual_tanker(2500, 2)};
    // 100 gal from 10 to 11, then 500 gpm at most: never more than 100 gpm for the first minute.
    CHECK(sustained_flow(incident, {minutes(10), minutes(15)}) == tenths(1000));
    // From 11 on 2,350 gal at 500 gpm, with 100 gal to even out: 20 minutes at 117.5.
    CHECK(sustained_flow(incident, {minutes(11), minutes(20)}) == tenths(1175));
    incident.tankers[0].can_nurse = false;
    CHECK(sustained_flow(incident, {minutes(10), minutes(15)}) == tenths(66));
    incident.tankers[0].can_nurse = true;
    incident.dump_site.nurse_hookup = minutes(20);  // hooked up at 30, too late to nurse
    CHECK(sustained_flow(incident, {minutes(10), minutes(15)}) == tenths(66));
}

TEST_CASE("tanks and tankers that nurse do not share one room") {
    // 1,000 gal of portable tanks; the first tanker dumps into them before the draft and waits with
    // the rest of its load while another one nurses: what the fire draws is nursed, so nothing
    // makes room in the tanks until the nursed load is through.
    Incident incident = bare_case(gallons(1000));
    incident.dump_site.draft_ready = minutes(30);
    incident.dump_site.engine_tank = gallons(500);
    incident.dump_site.nursing_tankers = 1;
    incident.tankers = {usual_tanker(2500, 1), usual_tanker(2500, 2)};
    incident.tankers[0].can_nurse = false;
    incident.fill_sites[0].ready = minutes(500);
    // All water from minute 5 on is 500 + 2 x 2,250, and all of it is usable in the end.
    CHECK(sustained_flow(incident, {minutes(5), minutes(100)}) == tenths(500));
    CHECK(lasts(incident, minutes(5), tenths(1000), minutes(100)) == minutes(50));
}

namespace {

// Engine and draft as given, nobody refills, every load takes 2,000 gal.
Incident two_loads(Duration draft_ready, Volume engine_tank, Volume storage, Flow nurse_rate) {
    Incident incident = bare_case(storage);
    incident.dump_site.draft_ready = draft_ready;
    incident.dump_site.engine_tank = engine_tank;
    incident.dump_site.nursing_tankers = 2;
    incident.tankers = {usual_tanker(2500, 9), usual_tanker(2500, 9)};
    for (Tanker& tanker : incident.tankers) {
        tanker.delivered = gallons(2000);
        tanker.nurse_rate = nurse_rate;
    }
    incident.fill_sites[0].ready = minutes(500);
    return incident;
}

}  // namespace

TEST_CASE("a slow nursing line is left behind by dumping only after a while") {
    // 100 gpm since minute 10 have put in 1,000 gal by the draft at 20; dumping 1,000 gpm from then
    // on catches up at 21.1, when 1,000 + 1,111 gal are there: 190 gpm over 11.1 minutes.
    Incident incident = two_loads(minutes(20), gallons(1000), gallons(5000), gpm(100));
    incident.tankers.pop_back();
    CHECK(sustained_flow(incident, {minutes(10), minutes(15)}) == tenths(1900));
}

TEST_CASE("who nurses does it at the rate of its own pump, several at the least of theirs") {
    // No draft in sight and no water but what is nursed: 5 min from a minute after coupling on.
    Incident incident = two_loads(minutes(60), gallons(0), gallons(5000), gpm(190));
    const Window window{minutes(11), minutes(5)};
    incident.dump_site.nursing_tankers = 1;
    CHECK(sustained_flow(incident, window) == tenths(2280));  // 190 x 6 / 5
    incident.tankers[1].nurse_rate = gpm(60);
    CHECK(sustained_flow(incident, window) == tenths(2280));
    incident.dump_site.nursing_tankers = 2;
    CHECK(sustained_flow(incident, window) == tenths(720));
    incident.dump_site.nursing_tankers = 1;
    incident.tankers[0].nurse_rate = gpm(60);
    incident.tankers[1].nurse_rate = gpm(190);
    CHECK(sustained_flow(incident, window) == tenths(720));  // the first to come nurses
    incident.tankers[0].can_nurse = false;
    CHECK(sustained_flow(incident, window) == tenths(2280));
}

TEST_CASE("a nursing tanker that waits behind another one dumps when the draft is up") {
    // The first feeds 190 gpm since minute 10: 1,900 gal by the draft at 20, 380 gpm from 15 on. By
    // then the second one, which had no room, dumps.
    Incident incident = two_loads(minutes(20), Volume{}, gallons(5000), gpm(190));
    CHECK(sustained_flow(incident, {minutes(15), minutes(10)}) == tenths(3800));
}

TEST_CASE("nursed water that is not in yet keeps its room in the tanks") {
    // 200 gal of portable tanks are full of the second load; the rest of it waits until the 2,000
    // gal nursed at 50 gpm since minute 10 are drawn. At that moment, 2,000 / flow after the start
    // at 15, there are 100 + 200 + 50 (5 + 2,000 / flow) gal: 100,000 / 1,450 = 68.97 gpm.
    Incident incident = two_loads(minutes(20), gallons(100), gallons(200), gpm(50));
    incident.tankers[0].offload = gpm(50);
    incident.tankers[1].can_nurse = false;
    CHECK(sustained_flow(incident, {minutes(15), minutes(40)}) == tenths(689));
}

TEST_CASE("a flow lasts until its water is drawn") {
    // Source: volumes for 250 gpm x 2 h, 400 gpm x 2 h ("Highway Hydraulics: Main Street to Country
    // Roads, Part 3"), 200 gpm x 20 min and 250 gpm x 30 min (rating organisation, "Alternative
    // Water Supplies").
    struct Row {
        double tank, flow, lasts;
    };
    for (const Row& row :
         {Row{30'000, 250, 120}, Row{48'000, 400, 120}, Row{4'000, 200, 20}, Row{7'500, 250, 30}}) {
        CAPTURE(row.tank);
        Incident incident = bare_case(std::nullopt);
        incident.dump_site.engine_tank = gallons(row.tank);
        const HeldFlow flow = held(gpm(row.flow));
        CHECK(in_minutes(lasts(incident, minutes(15), flow, minutes(600))) == Approx(row.lasts));
        CHECK(lasts(incident, minutes(15), flow, minutes(10)) == minutes(10));
        CHECK(sustained_flow(incident, {minutes(15), minutes(row.lasts)}) == flow);
    }
    CHECK(lasts(bare_case(std::nullopt), minutes(15), tenths(0), minutes(45)) == minutes(45));
    CHECK(lasts(bare_case(std::nullopt), minutes(15), tenths(1), minutes(45)) == Duration{});
}

TEST_CASE("a flow ends while water still runs in, only slower than it is drawn") {
    // 1,000 gal at the start, 2,250 more at 100 gpm from minute 1 on; 300 gpm outrun that when
    // 1,000 + 100 (t - 1) = 300 t.
    Incident incident = bare_case(std::nullopt);
    incident.dump_site.engine_tank = gallons(1000);
    incident.tankers = {usual_tanker(2500, 0)};
    incident.tankers[0].offload = gpm(100);
    CHECK(in_minutes(lasts(incident, minutes(0), tenths(3000), minutes(60))) == Approx(4.5));
}

TEST_CASE("the earliest start is the first tenth of a minute that holds") {
    const Incident incident = ordinary_case();
    const Duration latest = minutes(87.5);
    for (const int flow : {1, 1000, 2500, 4000, 4500, 5000, 5050}) {
        CAPTURE(flow);
        const auto start = earliest_start(incident, tenths(flow), minutes(120), latest);
        REQUIRE(start);
        CHECK(holds(incident, {*start, minutes(120)}, tenths(flow)));
        CHECK_FALSE(holds(incident, {*start - minutes(0.1), minutes(120)}, tenths(flow)));
        CHECK(earliest_start(incident, tenths(flow), minutes(120), *start) == start);
        CHECK_FALSE(earliest_start(incident, tenths(flow), minutes(120), *start - minutes(0.1)));
    }
    CHECK_FALSE(earliest_start(incident, tenths(6000), minutes(120), latest));
    CHECK_FALSE(earliest_start(incident, tenths(10), minutes(120), minutes(-1)));
    CHECK(earliest_start(incident, tenths(0), minutes(120), latest) == Duration{});
}

TEST_CASE("an attack that draws more than the flow asked for makes waiting costly") {
    // 3,000 gal and nothing more; 200 gpm from minute 10 until the start, then 100 gpm for 20.
    Incident incident = bare_case(std::nullopt);
    incident.dump_site.engine_tank = gallons(3000);
    incident.dump_site.engine_arrives = minutes(8);
    incident.initial_attack = {gpm(200), minutes(10)};
    CHECK(earliest_start(incident, tenths(1000), minutes(20), minutes(60)) == minutes(8));
    CHECK(holds(incident, {minutes(15), minutes(20)}, tenths(1000)));
    CHECK_FALSE(holds(incident, {minutes(15.1), minutes(20)}, tenths(1000)));
}

TEST_CASE("slowing stretches every stage and nothing else") {
    const Incident incident = ordinary_case();
    const Incident slow = slowed(incident, 1.25);
    for (std::size_t i = 0; i < incident.tankers.size(); ++i) {
        CHECK(in_minutes(undisturbed_cycle(slow, slow.tankers[i])) ==
              Approx(1.25 * in_minutes(undisturbed_cycle(incident, incident.tankers[i]))));
        CHECK(slow.tankers[i].arrives == incident.tankers[i].arrives);
        CHECK(slow.tankers[i].nurse_rate == incident.tankers[i].nurse_rate / 1.25);
    }
    CHECK(slow.dump_site.nurse_hookup == minutes(1.25));
    CHECK(slow.fill_sites[0].ready == incident.fill_sites[0].ready);
    CHECK(cautious_factor(0.0) == 1.0);
    CHECK(cautious_factor(0.2) == Approx(1.07));
}

TEST_CASE("what is missing leads to nothing, not to a hang") {
    const HeldFlow tank_only = tenths(83);  // 1,000 gal of the engine over 120 minutes
    Incident incident = ordinary_case();
    SECTION("no duration") {
        CHECK(sustained_flow(incident, {minutes(27.5), Duration{}}) == tenths(0));
        CHECK(lasts(incident, minutes(27.5), tenths(100), Duration{}) == Duration{});
    }
    SECTION("no slot") {
        incident.dump_site.offload_slots = 0;
        CHECK(sustained_flow(incident, ordinary_window) == tank_only);
    }
    SECTION("no offload rate") {
        for (Tanker& tanker : incident.tankers) {
            tanker.offload = Flow{};
        }
        CHECK(sustained_flow(incident, ordinary_window) == tank_only);
    }
    SECTION("no place, or a pump that gives nothing: the first loads only") {
        const int first_loads = (10'000 + 9 * (2500 + 2000 + 3000 + 1800)) / 120;
        for (const int places : {0, 2}) {
            incident.fill_sites[0].places = places;
            incident.fill_sites[0].pump = Flow{};
            CHECK(sustained_flow(incident, ordinary_window) == tenths(first_loads));
        }
    }
    SECTION("tankers that bring nothing are as good as none") {
        for (Tanker& tanker : incident.tankers) {
            tanker.delivered = Volume{};
        }
        CHECK(sustained_flow(incident, ordinary_window) == tank_only);
    }
    SECTION("loads of a thimble, again and again in no time") {
        for (Tanker& tanker : incident.tankers) {
            tanker.delivered = tanker.refilled = gallons(0.001);
            tanker.fill_before = tanker.fill_after = tanker.offload_before = tanker.offload_after =
                Duration{};
            tanker.leg = {};
        }
        CHECK(sustained_flow(incident, ordinary_window) >= tank_only);
        CHECK(sustained_flow(incident, ordinary_window) <=
              held(window_bound(incident, ordinary_window)));
    }
}

TEST_CASE("far more tankers, sites, places and slots than anybody has still give an answer") {
    Incident incident = ordinary_case();
    incident.dump_site.storage.reset();
    incident.dump_site.offload_slots = 12;
    incident.fill_sites.assign(24, incident.fill_sites[0]);
    incident.tankers.clear();
    for (int i = 0; i < 96; ++i) {
        incident.tankers.push_back(usual_tanker(2500, 13.0 + 0.1 * i));
        incident.tankers.back().fill_site = static_cast<std::size_t>(i % 24);
    }
    const HeldFlow all = sustained_flow(incident, ordinary_window);
    CHECK(all > tenths(50'000));
    CHECK(holds(incident, ordinary_window, all));
    CHECK_FALSE(holds(incident, ordinary_window, tenths(in_tenths(all) + 1)));
    CHECK(all <= held(window_bound(incident, ordinary_window)));
}
