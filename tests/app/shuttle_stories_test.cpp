// Stories of an invented district as scenarios typed by hand. What a quick simulation had said
// before stands in brackets; it was good to four per cent. The numbers here are those of two slow
// twins that share no code with the program (tests/support/slow_shuttle.h).
#include <algorithm>

#include <catch2/catch.hpp>

#include "reports/shuttle_page.h"
#include "tests/app/typed_scenarios.h"
#include "tests/supply/random_incidents.h"

using namespace farwater;

namespace {

constexpr double tick = 0.005;  // minutes

// Tenths of a gpm, the best of all ways of filling, by the slow rules; no initial attack.
int slow_tenths(supply::Incident incident, supply::Window window, std::size_t site = 0) {
    if (site == incident.fill_sites.size()) {
        return slow::slow_sustained_flow(supply::slow_of(incident), in_minutes(window.start),
                                         in_minutes(window.duration), 30'000);
    }
    int best = 0;
    const int given = incident.fill_sites[site].flows.value_or(0);
    for (int flows = std::max(1, given);
         flows <= (given > 0 ? given : incident.fill_sites[site].places); ++flows) {
        incident.fill_sites[site].flows = flows;
        best = std::max(best, slow_tenths(incident, window, site + 1));
    }
    return best;
}

double ticked(supply::Incident incident, supply::Window window) {
    for (supply::FillSite& site : incident.fill_sites) {
        site.flows = 1;  // the better way in all of these
    }
    return slow::ticked_sustained_flow(supply::slow_of(incident), in_minutes(window.start),
                                       in_minutes(window.duration), 3000, tick);
}

// The sustained and the cautious flow are what the slow rules say, and the ticks within 0.3 %.
void check_by_twins(const AnsweredScenario& scenario) {
    const supply::Window window = scenario.typed.window;
    const supply::Incident& incident = scenario.answer.incident;
    CHECK(in_tenths(scenario.answer.sustained) == slow_tenths(incident, window));
    CHECK(in_tenths(scenario.answer.cautious) ==
          slow_tenths(supply::slowed(incident, 1.07), window));
    CHECK(ticked(incident, window) ==
          Approx(in_gpm(flow_of(scenario.answer.sustained))).epsilon(0.003));
}

double gpm_of(HeldFlow flow) { return in_gpm(flow_of(flow)); }

HeldFlow gain_of(const supply::ShuttleAnswer& answer, std::string_view key) {
    const auto gains = reports::gain_words(answer);
    return std::ranges::find(gains, key, &reports::GainWords::key)->gain;
}

}  // namespace

TEST_CASE("Hollow Road: an ordinary house is short by little, and one tanker cures it") {
    const AnsweredScenario scenario = answered(hollow_road());
    const supply::ShuttleAnswer& answer = scenario.answer;
    check_by_twins(scenario);
    CHECK(in_gpm(answer.handbook) == Approx(496.8).margin(0.1));  // 132.0 + 111.8 + 150.0 + 103.1
    CHECK(gpm_of(answer.sustained) == Approx(505.0));             // (502)
    CHECK(gpm_of(answer.cautious) == Approx(472.0));              // (469)
    CHECK(gpm_of(answer.without[*supply::worst_out(answer)]) == Approx(370.4));  // (367)
    CHECK(*supply::worst_out(answer) == 2);
    CHECK(answer.limit == Limit::fleet);
    CHECK(gpm_of(gain_of(answer, "portable_tank")) == Approx(18.6));  // (18)
    REQUIRE(answer.need);
    CHECK(answer.need->margin == Margin::none);
    CHECK(answer.need->state != SupplyState::held);  // never
    CHECK(answer.need->holds_for < minutes(120));
    // One more 2,000-gal tanker at minute 28: (602, cautious 564), the margin is firm.
    const AnsweredScenario more = answered(hollow_road() + typed_tanker("T5", 2000, 28));
    check_by_twins(more);
    CHECK(gpm_of(more.answer.sustained) == Approx(604.7));
    CHECK(gpm_of(more.answer.cautious) == Approx(567.8));
    CHECK(more.answer.need->state == SupplyState::held);
    CHECK(more.answer.need->margin == Margin::firm);
    CHECK(more.answer.need->holds_for >= minutes(120));
}

TEST_CASE("Hollow Road: five minutes after arrival only a nursing tanker gives the least flow") {
    const std::string early = replaced(
        replaced(hollow_road(), "start_min = 27.5",
                 "start_min = 17.5\ninitial_attack_gpm = 200\ninitial_attack_from_min = 14"),
        "needed_gpm = 500", "needed_gpm = 250");
    const AnsweredScenario alone = answered(early);
    CHECK(gpm_of(alone.answer.sustained) == Approx(120.0));  // (119)
    CHECK(alone.answer.need->state != SupplyState::held);
    // 1,000 gal at 200 gpm since minute 14 end at 19, the draft is up at 20.
    CHECK(alone.answer.first_minutes.dry == minutes(1));
    CHECK(alone.answer.first_minutes.continuous == minutes(20));
    const AnsweredScenario nursed = answered(replaced(early, "tanks_ready_min",
                                                      "nursing_tankers = 1\nnurse_gpm = 500\n"
                                                      "tanks_ready_min"));
    CHECK(gpm_of(nursed.answer.sustained) == Approx(480.1));  // (469)
    CHECK(ticked(nursed.answer.incident, nursed.typed.window) == Approx(480.1).epsilon(0.003));
    CHECK(nursed.answer.need->state == SupplyState::held);
    CHECK(nursed.answer.first_minutes.dry == Duration{});
    // The first one's pump is too small for the attack and the flow; what the others give is no
    // help, for one nurses.
    const std::string text =
        replaced(early, "tanks_ready_min", "nursing_tankers = 1\nnurse_gpm = 500\ntanks_ready_min");
    const AnsweredScenario small =
        answered(replaced(text, "arrives_min = 13.5", "nurse_gpm = 60\narrives_min = 13.5"));
    CHECK(gpm_of(small.answer.sustained) < gpm_of(nursed.answer.sustained) - 200.0);
    CHECK(small.typed.incident.tankers[0].nurse_rate == gpm(60));
    CHECK(small.typed.incident.tankers[1].nurse_rate == gpm(500));
}

TEST_CASE("Hollow Road: never 574 because the storage was left blank") {
    const std::string text = hollow_road();
    const AnsweredScenario blank = answered(replaced(text, "storage_gal = 4664\n", ""));
    CHECK(blank.answer.sustained < answered(text).answer.sustained);
    CHECK(blank.typed.incident.dump_site.storage == Volume{});
    CHECK(std::ranges::any_of(blank.typed.assumed, [](const supply::Assumed& one) {
        return one.key == "storage_gal" && one.value == supply::AssumedValue(Volume{});
    }));
}

TEST_CASE("Hollow Road: never a flow without its start and duration") {
    // Over ten minutes it reads (1,160), which is water on wheels and no supply.
    const AnsweredScenario ten =
        answered(replaced(hollow_road(), "duration_min = 120", "duration_min = 10"));
    CHECK(gpm_of(ten.answer.sustained) > 1000.0);
    const std::string page = reports::shuttle_text({"s.toml", ten.typed, ten.answer});
    CHECK(page.find("The flow has to hold from minute 27.5 for 10 min.") != std::string::npos);
    CHECK(page.find("the cautious flow rounded down, from minute 27.5 for 10 min") !=
          std::string::npos);
}

TEST_CASE("Quarry Lane: a supply line of 4-in hose leaves the tankers the limit, 3-in does not") {
    // 1,400 ft and 60 ft up at 185 psi with 20 left: 704 gpm in 4-in hose, 352 in 3-in.
    const AnsweredScenario wide =
        answered(replaced(hollow_road(), "flow_cap_gpm = 1500", "flow_cap_gpm = 704"));
    check_by_twins(wide);
    CHECK(gpm_of(wide.answer.sustained) == Approx(505.0));
    CHECK(wide.answer.limit == Limit::fleet);
    const AnsweredScenario narrow =
        answered(replaced(hollow_road(), "flow_cap_gpm = 1500", "flow_cap_gpm = 352"));
    CHECK(gpm_of(narrow.answer.sustained) == Approx(352.0));
    CHECK(narrow.answer.limit == Limit::draft);
    CHECK(gpm_of(gain_of(narrow.answer, "tanker")) == 0.0);
}

namespace {

// Tuesday at noon: a small crew, one tanker of our own, one by automatic aid, a hydrant.
const std::string noon_places = R"(start_min = 29.5
duration_min = 120
needed_gpm = 500
[dump_site]
storage_gal = 4664
engine_tank_gal = 1000
engine_arrives_min = 14.5
tanks_ready_min = 19
draft_ready_min = 24
[[fill_site]]
id = "pond"
pump_gpm = 600
ready_min = 23
usable_gal = "unlimited"
)";

std::string noon() {
    return noon_places + typed_tanker("T1", 2500, 15.5) + typed_tanker("Aid", 1800, 24);
}

}  // namespace

TEST_CASE("Tuesday at noon at Hollow Road: two tankers hold less than half of the need") {
    const AnsweredScenario scenario = answered(noon());
    check_by_twins(scenario);
    CHECK(gpm_of(scenario.answer.sustained) == Approx(234.0));  // (230)
    CHECK(gpm_of(scenario.answer.cautious) == Approx(218.7));   // (219)
    CHECK(scenario.answer.limit == Limit::fleet);
    CHECK(scenario.answer.need->state == SupplyState::short_flow);
    CHECK(scenario.answer.cautious < answered(hollow_road()).answer.cautious);  // noon is worse
    const AnsweredScenario aided = answered(noon() + typed_tanker("Mutual", 2500, 38));
    check_by_twins(aided);
    CHECK(in_gpm(aided.answer.handbook) == Approx(336).epsilon(0.04));
    CHECK(gpm_of(aided.answer.sustained) == Approx(345.0));  // (342)
}

TEST_CASE("Tuesday at noon: the aid engine at a pond gives about what the hydrant does") {
    // Beside the house the first engine attacks and drafts, so that the second one may fill.
    const AnsweredScenario scenario = answered(replaced(
        replaced(noon(), "ready_min = 23", "ready_min = 30"), "pump_gpm = 600", "pump_gpm = 1000"));
    check_by_twins(scenario);
    CHECK(gpm_of(scenario.answer.sustained) == Approx(245).epsilon(0.04));
}

TEST_CASE("Tuesday at noon: with nobody at the pond there is tank water only") {
    const AnsweredScenario scenario =
        answered(replaced(replaced(noon(), "ready_min = 23", "ready_min = 1440"),
                          "needed_gpm = 500", "needed_gpm = 200"));
    CHECK(scenario.answer.need->state == SupplyState::tank_only);
    CHECK(scenario.answer.on_wheels == gallons(4870));  // 1,000 + 2,250 + 1,620
    // 4,870 gal at 200 gpm: 24 minutes.
    CHECK(in_minutes(scenario.answer.need->holds_for) == Approx(24.35).margin(0.01));
    // Never a gallon from a fill site where no engine is.
    CHECK(gpm_of(scenario.answer.sustained) * 120 <= 4870.0);
}

TEST_CASE("Corbin farm: the shuttle is far from what the barn needs") {
    const std::string near =
        replaced(replaced(hollow_road_places, "ready_min = 22", "ready_min = 20"),
                 "needed_gpm = 500", "needed_gpm = 1000") +
        typed_tanker("T1", 2500, 13.5, 1.6, 1.7) + typed_tanker("T2", 2000, 16, 1.6, 1.7) +
        typed_tanker("T3", 3000, 19, 1.6, 1.7) + typed_tanker("T4", 1800, 24, 1.6, 1.7);
    const AnsweredScenario scenario = answered(near);
    check_by_twins(scenario);
    CHECK(gpm_of(scenario.answer.sustained) == Approx(617).epsilon(0.04));
    CHECK(gpm_of(scenario.answer.cautious) == Approx(580).epsilon(0.04));
    CHECK(scenario.answer.need->state != SupplyState::held);  // never the house's 500
}

TEST_CASE("what is not known never helps: blanks never raise a flow or a state") {
    const std::string text = replaced(hollow_road(), "usable_gal = \"unlimited\"",
                                      "usable_gal = 40000\ninflow_gpm = 50") +
                             "";
    const supply::ShuttleAnswer given = answered(text).answer;
    for (const char* line : {"storage_gal = 4664\n", "engine_tank_gal = 1000\n",
                             "usable_gal = 40000\n", "inflow_gpm = 50\n"}) {
        CAPTURE(line);
        const supply::ShuttleAnswer blank = answered(replaced(text, line, "")).answer;
        CHECK(blank.sustained <= given.sustained);
        CHECK(blank.cautious <= given.cautious);
        CHECK(blank.need->holds_for <= given.need->holds_for);
    }
}

TEST_CASE("the order of tables changes nothing that is said of the whole") {
    const std::string mixed = hollow_road_places + typed_tanker("T4", 1800, 24) +
                              typed_tanker("T1", 2500, 13.5) + typed_tanker("T3", 3000, 19) +
                              typed_tanker("T2", 2000, 16);
    const supply::ShuttleAnswer one = answered(hollow_road()).answer;
    const supply::ShuttleAnswer other = answered(mixed).answer;
    CHECK(one.sustained == other.sustained);
    CHECK(one.cautious == other.cautious);
    CHECK(in_gpm(one.bound) == Approx(in_gpm(other.bound)));
    CHECK(in_gpm(one.disorder) == Approx(in_gpm(other.disorder)));
    CHECK(one.gains.front().flow == other.gains.front().flow);
    CHECK(one.build_up.size() == other.build_up.size());
    for (std::size_t i = 0; i < one.build_up.size(); ++i) {
        CHECK(one.build_up[i].sustained == other.build_up[i].sustained);
    }
}

TEST_CASE("tankers of one kind: longer never holds more, and more water never less") {
    std::string fleet;
    for (int i = 0; i < 6; ++i) {
        fleet += typed_tanker("T" + std::to_string(i), 2500, 14 + 2.5 * i);
    }
    const std::string places =
        replaced(hollow_road_places, "usable_gal = \"unlimited\"", "usable_gal = 20000");
    HeldFlow before = tenths_of_gpm(1'000'000);
    for (const char* duration : {"30", "60", "120", "180", "240"}) {
        const HeldFlow flow = answered(replaced(places, "duration_min = 120",
                                                std::string("duration_min = ") + duration) +
                                       fleet)
                                  .answer.sustained;
        CHECK(flow <= before);
        before = flow;
    }
    before = HeldFlow{};
    for (const char* gallons : {"5000", "20000", "40000", "80000"}) {
        const HeldFlow flow = answered(replaced(places, "usable_gal = 20000",
                                                std::string("usable_gal = ") + gallons) +
                                       fleet)
                                  .answer.sustained;
        CHECK(flow >= before);
        before = flow;
    }
}

TEST_CASE("Hollow Road: a second portable tank counts when a siphon is there") {
    const std::string two = replaced(hollow_road(), "storage_gal = 4664",
                                     "storage_gal = 4664\nportable_tanks = 2\njet_siphons = 1");
    const HeldFlow pool = answered(hollow_road()).answer.sustained;
    CHECK(answered(two).answer.sustained == pool);  // 1,600 gpm can be moved, the pump has 1,350
    const AnsweredScenario none = answered(replaced(two, "jet_siphons = 1", "jet_siphons = 0"));
    const HeldFlow one_tank =
        answered(replaced(hollow_road(), "storage_gal = 4664", "storage_gal = 2332"))
            .answer.sustained;
    CHECK(none.answer.sustained == one_tank);
    CHECK(one_tank < pool);
    CHECK(none.answer.line.used == 1);
    for (const supply::Gain& gain : none.answer.gains) {
        if (gain.limit == Limit::transfer) {
            CHECK(in_tenths(gain.flow) == in_tenths(pool) - in_tenths(one_tank));
        }
    }
    const AnsweredScenario blank = answered(replaced(two, "jet_siphons = 1\n", ""));
    CHECK(blank.answer.sustained == one_tank);
}
