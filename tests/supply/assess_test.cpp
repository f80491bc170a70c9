// The supply stage on a district of one dump site: every state, and what is said when there is
// none.
#include "analyzer/supply/assess.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/working.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

TEST_CASE("a parcel whose need is below the cautious flow is held, and its numbers hang together",
          "[unit]") {
    OneDumpSite scene;
    scene.needs[0]->flow = tenths_of_gpm(2500);
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::held);
    CHECK(supply.mode == SupplyMode::shuttle);
    CHECK(supply.tankers == 4);
    CHECK(supply.cautious >= supply.needed);
    CHECK(supply.sustained >= supply.cautious);
    CHECK(supply.one_tanker_out <= supply.cautious);
    CHECK(in_tenths(*supply.first_engine) == 125);
    CHECK(supply.fill_source == SourceIndex(0));
    CHECK(*supply.hose_ft == Approx(200.0F));
}

TEST_CASE("a need that holds only from later on is late, and one that never holds is short",
          "[unit]") {
    OneDumpSite scene;
    scene.district.units[2].jet_siphons = 1;
    const HeldFlow cautious = scene.supply().cautious;
    scene.needs[0]->flow = tenths_of_gpm(in_tenths(cautious) + 1);
    const ParcelSupply just_late = scene.supply();
    REQUIRE(just_late.state == SupplyState::late);
    CHECK(in_tenths(*just_late.earliest_start) > 275);
    scene.needs[0]->flow = tenths_of_gpm(30000);
    const ParcelSupply never = scene.supply();
    CHECK(never.state == SupplyState::short_flow);
    CHECK_FALSE(never.earliest_start);
    CHECK(in_tenths(never.later) > 0);
}

// A source may be empty by the late horizon.
TEST_CASE("what is held from the start and not from later on is short of the need", "[unit]") {
    ParcelSupply supply;
    supply.needed = tenths_of_gpm(6000);
    supply.cautious = tenths_of_gpm(1050);
    judge(supply, 1.1);
    CHECK(supply.state == SupplyState::short_flow);
    supply.cautious = HeldFlow{};
    judge(supply, 1.1);
    CHECK(supply.state == SupplyState::tank_only);
}

TEST_CASE("without a building there is no need and no answer", "[unit]") {
    OneDumpSite scene;
    scene.needs[0].reset();
    CHECK(scene.supply().state == SupplyState::no_building);
}

TEST_CASE("what the answer rests on and is missing makes it unknown, with the reason", "[unit]") {
    OneDumpSite scene;
    SECTION("no road") {
        scene.access[0].road = RoadIndex();
        CHECK(scene.supply().reason == ProblemId::parcel_no_road_in_reach);
    }
    SECTION("no engine") {
        scene.district.units.erase(scene.district.units.begin(), scene.district.units.begin() + 2);
        scene.refresh();
        CHECK(scene.supply().reason == ProblemId::fleet_without_engines);
    }
    SECTION("no water that counts") {
        scene.district.sources[0].standing = Standing::mapped;
        scene.refresh();
        CHECK(scene.supply().reason == ProblemId::no_source_counts);
    }
    CHECK(scene.supply().state == SupplyState::unknown);
}

TEST_CASE("a house that no engine reaches is unreached", "[unit]") {
    OneDumpSite scene;
    scene.arrivals[0] = no_time;
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::unreached);
    CHECK(supply.limit == Limit::no_route);
}

TEST_CASE("where hose keeps all tankers from the nearest dump site, another says what is missing",
          "[unit]") {
    OneDumpSite scene;
    scene.district.units.erase(scene.district.units.begin());  // one engine, which attacks
    scene.refresh();
    scene.trips.stations_of_dump_site.close_row();  // while that hose lies no station gets there
    scene.trips.fill_trips.close_row();
    HoseLay cut_off = OneDumpSite::the_lay();
    cut_off.approach = ApproachIndex(1);
    Lists<HoseLay>& lays = scene.trips.hose_lays;
    lays = {};
    lays.items.push_back(cut_off);
    SECTION("a dump site behind the hose alone") {
        lays.close_row();
        const ParcelSupply supply = scene.supply();
        CHECK(supply.state == SupplyState::tank_only);
        CHECK(supply.limit == Limit::no_route);
        // They stand before the hose with what is in their tanks: 1000 + 0.9 x 9300.
        CHECK(*supply.wheels_gal == Approx(1000 + 0.9 * (2500 + 2000 + 3000 + 1800)));
        const Working working =
            working_of(scene.situation(), scene.needs, scene.arrivals, std::size_t{0});
        REQUIRE(working.looked.size() == 1);
        CHECK(working.looked[0].scene.tankers.empty());
        CHECK(working.looked[0].scene.held_back.size() == 4);
    }
    SECTION("and one that they get to") {
        HoseLay open = OneDumpSite::the_lay();
        open.length = feet(300);
        lays.items.push_back(open);
        lays.close_row();
        const ParcelSupply supply = scene.supply();
        CHECK(supply.state == SupplyState::tank_only);
        CHECK(supply.limit == Limit::engines);
        CHECK(*supply.hose_ft == Approx(300.0F));
    }
}

TEST_CASE("tank water only, with what is missing", "[unit]") {
    OneDumpSite scene;
    Limit limit = Limit::none;
    SECTION("no dump site in hose reach") {
        scene.trips.hose_lays = {};
        scene.trips.hose_lays.close_row();
        limit = Limit::no_dump_site;
    }
    SECTION("no tanker in the district") {
        scene.district.units.resize(2);
        scene.refresh();
        limit = Limit::fleet;
    }
    SECTION("one engine: it attacks, and none is left to draft") {
        scene.district.units.erase(scene.district.units.begin());
        scene.refresh();
        limit = Limit::engines;
    }
    SECTION("no portable tank") {
        scene.district.units[2].portable_tank = gallons(0);
        scene.district.units[4].portable_tank = gallons(0);
        limit = Limit::storage;
    }
    SECTION("a suction point and no third engine to run it") {
        scene.district.sources[0].kind = SourceKind::dry_hydrant;
        scene.refresh();
        limit = Limit::engines;
    }
    SECTION("no fill site within the trip limit") {
        scene.trips.fill_trips = {};
        scene.trips.fill_trips.close_row();
        limit = Limit::no_source;
    }
    SECTION("no hose long enough") {
        scene.trips.hose_lays.items[0].length = feet(2001);
        limit = Limit::hose;
    }
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::tank_only);
    CHECK(supply.limit == limit);
    CHECK(in_tenths(supply.cautious) == 0);
}

TEST_CASE("a long thin line limits the flow to what it carries", "[unit]") {
    OneDumpSite scene;
    for (std::size_t engine = 0; engine < 2; ++engine) {
        scene.district.units[engine].hose =
            HoseLoad{.hose_2_5in = feet(1000), .hose_3in = {}, .hose_4in = {}, .hose_5in = {}};
    }
    scene.trips.hose_lays.items[0].length = feet(2000);
    const ParcelSupply supply = scene.supply();
    CHECK(supply.limit == Limit::supply_line);
    CHECK(supply.sustained == tenths_of_gpm(2031));  // 100 sqrt(165 / (2 x 20)) = 203.1 gpm
}

TEST_CASE("an engine whose hose is not listed has the stated load and no large hose", "[unit]") {
    OneDumpSite scene;
    scene.district.units[0].hose.reset();
    scene.district.units[1].hose.reset();
    scene.trips.hose_lays.items[0].length = feet(1600);
    CHECK(scene.supply().limit == Limit::supply_line);
    scene.trips.hose_lays.items[0].length = feet(1601);
    CHECK(scene.supply().limit == Limit::hose);
}

TEST_CASE("the evidence is the weakest of source, tanker rates and need", "[unit]") {
    OneDumpSite scene;
    CHECK(scene.supply().evidence == Evidence::declared);
    SECTION("an untimed tanker") { scene.district.units[3].offload.reset(); }
    SECTION("a source without a rate") {
        scene.district.sources[0].rate.reset();
        scene.water = review_water(scene.district);
    }
    SECTION("a default need") { scene.needs[0]->evidence = Evidence::assumed; }
    CHECK(scene.supply().evidence == Evidence::assumed);
}

TEST_CASE("backing on a dead-end lane costs flow", "[unit]") {
    OneDumpSite scene;
    const HeldFlow through = scene.supply().sustained;
    scene.trips.hose_lays.items[0].lane = LaneClass::dead_end;
    CHECK(scene.supply().sustained < through);
}

TEST_CASE("parcels of one case get the same flows, and more of them do not change it", "[unit]") {
    OneDumpSite one;
    OneDumpSite many;
    many.district.parcels.assign(40, Parcel{.id = "P"});
    many.refresh();
    const auto supplies = assess(many.situation(), many.needs, many.arrivals,
                                 Work{.stop = {}, .threads = 2, .progress = {}});
    for (const ParcelSupply& supply : supplies) {
        CHECK(supply.cautious == one.supply().cautious);
    }
}

TEST_CASE("blanking storage, volume or a fleet cell never raises a flow", "[unit]") {
    OneDumpSite full;
    OneDumpSite blank;
    SECTION("the source's volume") {
        blank.district.sources[0].kind = SourceKind::cistern;
        blank.district.sources[0].usable.reset();
    }
    SECTION("the source's rate") { blank.district.sources[0].rate.reset(); }
    SECTION("the first portable tank") { blank.district.units[2].portable_tank = gallons(0); }
    SECTION("a portable tank") { blank.district.units[4].portable_tank = gallons(0); }
    SECTION("a siphon") { full.district.units[2].jet_siphons = 1; }
    SECTION("a fill limit") { blank.district.units[2].fill_limit.reset(); }
    SECTION("an offload rate") { blank.district.units[2].offload.reset(); }
    SECTION("the engine's pump") { blank.district.units[1].pump.reset(); }
    blank.refresh();
    CHECK(blank.supply().sustained <= full.supply().sustained);
}

TEST_CASE("what nobody says of the engines that attack and draft is assumed", "[unit]") {
    OneDumpSite scene;
    for (Unit& unit : scene.district.units) {
        unit.tested_on = std::chrono::year{2026} / 1 / 1;
    }
    scene.refresh();
    REQUIRE(scene.supply().evidence > Evidence::assumed);
    SECTION("the attack engine's tank") { scene.district.units[0].tank_known = false; }
    SECTION("the draft engine's pump") { scene.district.units[1].pump.reset(); }
    SECTION("the hose that is laid") {
        scene.district.units[0].hose.reset();
        scene.refresh();
        CHECK(scene.supply().evidence > Evidence::assumed);  // the other's is long enough
        scene.district.units[1].hose.reset();
    }
    scene.refresh();
    CHECK(scene.supply().evidence == Evidence::assumed);
}

TEST_CASE("the worse of two variants is kept, state before flow", "[unit]") {
    ParcelSupply held;
    held.state = SupplyState::held;
    held.cautious = tenths_of_gpm(6000);
    ParcelSupply short_flow = held;
    short_flow.state = SupplyState::short_flow;
    short_flow.cautious = tenths_of_gpm(7000);
    ParcelSupply held_by_less = held;
    held_by_less.cautious = tenths_of_gpm(5500);
    Assessment assessment;
    assessment.keep({SeasonIndex(0), PeriodIndex(0)}, std::vector{held, held}, 2);
    assessment.keep({SeasonIndex(0), PeriodIndex(1)}, std::vector{short_flow, held_by_less}, 2);
    assessment.keep({SeasonIndex(1), PeriodIndex(0)}, std::vector{held, held}, 2);
    CHECK(assessment.supplies[0].state == SupplyState::short_flow);
    CHECK(assessment.supplies[1].cautious == tenths_of_gpm(5500));
    CHECK(assessment.worst_variant == std::vector<std::uint8_t>{1, 1});
    CHECK(assessment.thinnest() == 1);
}

TEST_CASE("of two equal seasons the one that is worse later stands for the place", "[unit]") {
    ParcelSupply sooner;
    sooner.state = SupplyState::late;
    sooner.later = tenths_of_gpm(5000);
    sooner.earliest_start = rounded_up(minutes(33.4));
    sooner.gap = rounded_up(minutes(14.7));
    ParcelSupply drier = sooner;
    drier.gap = rounded_up(minutes(39.5));
    ParcelSupply never = sooner;
    never.earliest_start = {};
    for (const ParcelSupply& worse_one : {drier, never}) {
        CHECK_FALSE(worse(worse_one, sooner));
        CHECK(stands_for_worst(worse_one, sooner));
        CHECK_FALSE(stands_for_worst(sooner, worse_one));
        CHECK_FALSE(stands_for_worst(worse_one, worse_one));
        Assessment forwards;
        forwards.keep({SeasonIndex(0), PeriodIndex(0)}, std::vector{sooner}, 1);
        forwards.keep({SeasonIndex(1), PeriodIndex(0)}, std::vector{worse_one}, 1);
        CHECK(forwards.worst_variant[0] == 1);
        Assessment backwards;
        backwards.keep({SeasonIndex(1), PeriodIndex(0)}, std::vector{worse_one}, 1);
        backwards.keep({SeasonIndex(0), PeriodIndex(0)}, std::vector{sooner}, 1);
        CHECK(backwards.worst_variant[0] == 0);
    }
}

TEST_CASE("what is missing is missing by the better way from the start", "[unit]") {
    ParcelSupply late;
    late.state = SupplyState::late;
    late.needed = tenths_of_gpm(7500);
    CHECK(shortfall_of(late) == tenths_of_gpm(7500));
    late.runner_up_cautious = tenths_of_gpm(7205);  // the shuttle, until the hose lies
    CHECK(shortfall_of(late) == tenths_of_gpm(295));
    late.cautious = tenths_of_gpm(8000);
    CHECK(shortfall_of(late) == HeldFlow{});
}

TEST_CASE("the order of the rows of the apparatus list decides nothing", "[unit]") {
    OneDumpSite listed;
    listed.district.units[1].pump = gpm(400);  // of two that come together the second drafts
    listed.refresh();
    OneDumpSite shuffled = listed;
    std::swap(shuffled.district.units[0], shuffled.district.units[1]);
    std::ranges::reverse(shuffled.district.units.begin() + 2, shuffled.district.units.end());
    shuffled.refresh();
    const ParcelSupply one = listed.supply();
    const ParcelSupply other = shuffled.supply();
    CHECK(one.sustained == other.sustained);
    CHECK(one.cautious == other.cautious);
    CHECK(one.build_up == other.build_up);
    CHECK(one.one_tanker_out == other.one_tanker_out);
    CHECK(at(listed.district.units, one.first_at_site).id ==
          at(shuffled.district.units, other.first_at_site).id);
}

TEST_CASE("bounds first and every fill site run give the same case", "[twin]") {
    OneDumpSite scene;
    scene.trips.fill_trips = {};
    for (std::size_t i = 0; i < 6; ++i) {
        WaterSource source = scene.district.sources[0];
        source.rate = gpm(150.0 + 170.0 * static_cast<double>(i));
        source.usable = i % 2 == 0 ? UsableWater::unlimited()
                                   : UsableWater::of(gallons(12000.0 * static_cast<double>(i)));
        scene.district.sources.push_back(source);
    }
    scene.water = review_water(scene.district);
    scene.places = fill_site_places(scene.district, scene.water, scene.district.seasons[0]);
    for (std::size_t i = 0; i < scene.places.size(); ++i) {
        FillTrip trip;
        trip.fill_site = FillSiteIndex(i);
        trip.legs.fill({.empty = tenths_of_second(600 + 500 * static_cast<int>(i)),
                        .loaded = tenths_of_second(800 + 500 * static_cast<int>(i))});
        scene.trips.fill_trips.add(trip);
        scene.trips.fill_lanes.push_back(LaneClass::through);
    }
    scene.trips.fill_trips.close_row();
    const auto profile_of = profile_of_units(scene.district, scene.profiles);
    const auto responders = roster(scene.district, PeriodIndex(0), "");
    for (double arrival = 5.0; arrival < 30.0; arrival += 0.5) {
        const Situation situation = scene.situation();
        const Scene at_site = scene_at(situation, profile_of, responders,
                                       scene.trips.hose_lays[0][0], minutes(arrival));
        const CasePlan bounded = work_out(situation, at_site, {minutes(120)}).front();
        const CasePlan plain = work_out_plainly(situation, at_site, minutes(120)).front();
        CHECK(bounded.cautious == plain.cautious);
        CHECK(bounded.sustained == plain.sustained);
        CHECK(bounded.source == plain.source);
    }
}

TEST_CASE("a small slow tanker that would hold up the others is left out", "[unit]") {
    OneDumpSite scene;
    const ParcelSupply without = scene.supply();
    Unit slow = unit_of("T5", UnitKind::tanker, 1000);
    slow.offload = gpm(100);
    scene.district.units.push_back(slow);
    scene.refresh();
    const ParcelSupply with = scene.supply();
    CHECK(with.cautious >= without.cautious);
    CHECK(with.tankers == 4);
}
