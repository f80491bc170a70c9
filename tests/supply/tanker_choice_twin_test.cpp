// The choice of tankers against every choice there is.
#include <algorithm>

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

}  // namespace

TEST_CASE("the choice of tankers is nearly always the best of all, never more, never less than all",
          "[twin]") {
    constexpr int incidents = 60;
    int exact = 0;
    double lost = 0.0;
    for (std::uint64_t seed = 1; seed <= incidents; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 500'000);
        const Incident incident = one_site(random_incident(dice, {.nursing = false}));
        const Window window{minutes(dice.between(15.0, 40.0)), minutes(dice.between(60.0, 120.0))};
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
        exact += chosen == best ? 1 : 0;
        lost += in_tenths(best) > 0 ? 1.0 - 1.0 * in_tenths(chosen) / in_tenths(best) : 0.0;
    }
    CAPTURE(exact, lost / incidents);
    CHECK(exact >= incidents * 9 / 10);
    CHECK(lost / incidents < 0.005);
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

TEST_CASE("without the tanker that is missed most the flow is the least of all that lack one",
          "[twin]") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 600'000);
        const Incident incident = one_site(random_incident(dice, {.identical = true}));
        const Window window = random_window(dice);
        const ShuttlePlan plan{incident, incident, sustained_flow(incident, window), {}};
        HeldFlow least = plan.cautious;
        for (std::size_t out = 0; out < incident.tankers.size(); ++out) {
            Incident rest = incident;
            rest.tankers.erase(rest.tankers.begin() + static_cast<std::ptrdiff_t>(out));
            least =
                std::min(least, rest.tankers.empty() ? HeldFlow{} : sustained_flow(rest, window));
        }
        CHECK(one_tanker_out(plan, window) == least);
    }
}

}  // namespace farwater::supply
