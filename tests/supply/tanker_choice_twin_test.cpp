// The choice of tankers against every choice there is.
#include <algorithm>
#include <array>

#include <catch2/catch.hpp>

#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/incident_run.h"
#include "tests/supply/chosen_plan.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"

namespace farwater::supply {
namespace {

constexpr double factor = 1.07;

// Every set of tankers, with and without a nursing one.
HeldFlow best_of_all(const Incident& incident, Window window) {
    HeldFlow best{};
    const Incident slow = slowed(incident, factor);
    const bool one_can_nurse = std::ranges::any_of(slow.tankers, &Tanker::can_nurse);
    for (unsigned set = 1; set < 1U << slow.tankers.size(); ++set) {
        for (int nursing = 0; nursing <= (one_can_nurse ? 1 : 0); ++nursing) {
            Incident fewer = slow;
            fewer.dump_site.nursing_tankers = nursing;
            unsigned tanker = 0;
            std::erase_if(fewer.tankers,
                          [&](const Tanker&) { return (set >> tanker++ & 1U) == 0; });
            best = std::max(best, sustained_flow(fewer, window));
        }
    }
    return best;
}

// As the supply stage asks: one fill site, nursing open.
Incident one_site(Incident incident) {
    incident.fill_sites.resize(1);
    incident.dump_site.nursing_tankers = 0;
    for (Tanker& tanker : incident.tankers) {
        tanker.fill_site = 0;
    }
    std::ranges::sort(incident.tankers, {}, &Tanker::arrives);
    incident.tankers.resize(std::min<std::size_t>(incident.tankers.size(), 6));
    return incident;
}

// One offload slot at the end of a narrow way, a share of the shortest leg.
Incident in_single_file(Incident incident, double share) {
    Duration shortest = minutes(1000.0);
    for (const Tanker& tanker : incident.tankers) {
        shortest = std::min({shortest, tanker.leg.empty, tanker.leg.loaded});
    }
    incident.dump_site.offload_slots = 1;
    incident.dump_site.single_file = shortest * share;
    return incident;
}

// How often the choice is the best of all, and what it holds less, as a share.
struct AgainstAll {
    int incidents = 0, exact = 0;
    double lost = 0.0;

    void look_at(const Incident& incident, Window window) {
        const HeldFlow all = sustained_flow(slowed(incident, factor), window);
        const HeldFlow best = best_of_all(incident, window);
        const PlanJudge judge(window, factor);
        const auto plan = chosen_plan(incident, judge);
        const HeldFlow chosen = plan ? plan->cautious : HeldFlow{};
        CHECK(chosen <= best);
        CHECK(chosen >= all);
        if (plan) {
            CHECK(holds(plan->slow, window, chosen));
        }
        CHECK_FALSE(
            chosen_plan(incident, judge, {.begins = std::nullopt, .gap = 0, .flow = chosen}));
        ++incidents;
        exact += chosen == best ? 1 : 0;
        lost += in_tenths(best) > 0 ? 1.0 - 1.0 * in_tenths(chosen) / in_tenths(best) : 0.0;
    }
    void check() const {
        CAPTURE(incidents, exact, lost / incidents);
        CHECK(exact >= incidents * 9 / 10);
        CHECK(lost / incidents < 0.005);
    }
};

}  // namespace

TEST_CASE("the choice of tankers is nearly always the best of all, never more, never less than all",
          "[twin]") {
    AgainstAll plain;
    AgainstAll single_file;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 500'000);
        const Incident incident = one_site(random_incident(dice, {.nursing = false}));
        const Window window{minutes(dice.between(15.0, 40.0)), minutes(dice.between(60.0, 120.0))};
        plain.look_at(incident, window);
        single_file.look_at(in_single_file(incident, dice.between(0.3, 1.0)), window);
    }
    plain.check();
    single_file.check();
}

// One tanker after the other on nine minutes of narrow way: two are kept busy by it, the other four
// would only wait.
TEST_CASE("where tankers come in single file, those that the way has room for are chosen",
          "[twin]") {
    Incident incident = ordinary_case();
    incident.dump_site.storage = gallons(1865);
    incident.dump_site.engine_arrives = minutes(20.6);
    incident.dump_site.tanks_ready = minutes(26.6);
    incident.dump_site.draft_ready = minutes(34.6);
    incident.dump_site.single_file = minutes(9.067);
    incident.dump_site.engine_tank = gallons(750);
    incident.initial_attack = {gpm(200), minutes(22.0)};
    incident.fill_sites[0].ready = minutes(22.62);
    incident.fill_sites[0].places = 1;
    incident.fill_sites[0].backing = minutes(2.0);
    incident.tankers = {usual_tanker(3000, 20.63), usual_tanker(2000, 20.63),
                        usual_tanker(3000, 32.43), usual_tanker(2500, 35.49),
                        usual_tanker(1800, 68.08), usual_tanker(2500, 76.4)};
    constexpr std::array fill_gpm{1000.0, 500.0, 1000.0, 900.0, 600.0, 800.0};
    constexpr std::array offload_gpm{1400.0, 500.0, 1400.0, 1200.0, 800.0, 1000.0};
    for (std::size_t i = 0; i < incident.tankers.size(); ++i) {
        Tanker& tanker = incident.tankers[i];
        tanker.fill_limit = gpm(fill_gpm.at(i));
        tanker.offload = gpm(offload_gpm.at(i));
        tanker.offload_before = minutes(3.0);
        tanker.leg = {minutes(8.19), minutes(9.01)};
    }
    const Window window{minutes(35.5), minutes(120)};
    const auto plan = chosen_plan(incident, PlanJudge(window, factor));
    REQUIRE(plan);
    CHECK(plan->slow.tankers.size() < incident.tankers.size());
    CHECK(plan->cautious == best_of_all(incident, window));
}

TEST_CASE("no single tanker turned in or out of the choice gives more", "[twin]") {
    int looked = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 550'000);
        const Incident incident = one_site(random_incident(dice, {.identical = true}));
        const Window window{minutes(dice.between(15.0, 40.0)), minutes(dice.between(60.0, 120.0))};
        const auto plan = chosen_plan(incident, PlanJudge(window, factor));
        if (!plan) {
            continue;
        }
        const Incident slow = slowed(incident, factor);
        const auto runs = [&](const Tanker& tanker) {
            return std::ranges::count(plan->slow.tankers, tanker.arrives, &Tanker::arrives) > 0;
        };
        for (const Tanker& turned : slow.tankers) {
            Incident other = slow;
            other.dump_site.nursing_tankers = plan->slow.dump_site.nursing_tankers;
            std::erase_if(other.tankers, [&](const Tanker& tanker) {
                return runs(tanker) == (tanker.arrives == turned.arrives);
            });
            CHECK((other.tankers.empty() || sustained_flow(other, window) <= plan->cautious));
            ++looked;
        }
    }
    CHECK(looked > 100);
}

TEST_CASE("what a quick choice tried before changes nothing in the full choice", "[twin]") {
    std::size_t told = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 560'000);
        const Incident incident = one_site(random_incident(dice, {.open_flows = true}));
        const Window window{minutes(dice.between(15.0, 40.0)), minutes(dice.between(60.0, 120.0))};
        const PlanJudge judge(window, factor);
        TriedChoices tried;
        quick_choice(incident, judge, Merit{}, tried);
        quick_choice(incident, judge, {.begins = {}, .gap = 0, .flow = held(gpm(100))}, tried);
        told += tried.size();
        const auto plan = chosen_plan(incident, judge, {}, tried);
        const auto plain = chosen_plan(incident, judge);
        REQUIRE(plan.has_value() == plain.has_value());
        if (plan) {
            CHECK(plan->merit == plain->merit);
            CHECK(plan->slow.dump_site.nursing_tankers == plain->slow.dump_site.nursing_tankers);
            CHECK(std::ranges::equal(plan->slow.tankers, plain->slow.tankers, {}, &Tanker::arrives,
                                     &Tanker::arrives));
        }
    }
    CHECK(told > 400);
}

}  // namespace farwater::supply
