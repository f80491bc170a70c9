// The shortcuts of a trial against runs that take none: minutes alone against whole moments, parts
// against the whole window, an attack that is kept or drawn once against one that is drawn again.
#include <algorithm>
#include <optional>

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/run/trial.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr int drawn_incidents = test::draws(2'000);

// Near the largest that holds, where the answer is not at hand.
double drawn_flow(Dice& dice, const Incident& incident, Window window) {
    const double most = in_tenths(sustained_flow(incident, window)) / 10.0;
    return std::max(0.1, most * dice.between(0.8, 1.25));
}

bool holds_by(run::Trial& trial, Window window, double flow) {
    return trial.holds(in_minutes(window.start), in_minutes(window.duration), flow);
}

}  // namespace

TEST_CASE("a run in parts and in minutes alone holds what the whole run in moments holds",
          "[twin]") {
    int held = 0;
    for (int seed = 1; seed <= drawn_incidents; ++seed) {
        CAPTURE(seed);
        Dice dice(static_cast<std::uint64_t>(seed) + 710'000);
        const Incident incident = random_incident(dice, {.open_flows = true});
        const Window window = random_window(dice);
        const double start = in_minutes(window.start);
        const double duration = in_minutes(window.duration);
        const double flow = drawn_flow(dice, incident, window);
        run::Trial trial(incident);
        for (std::size_t i = 0; i < trial.regimes().size(); ++i) {
            trial.prepare(trial.regimes()[i], start);
            const bool holds = holds_by(trial, window, flow);
            const std::optional<double> below = trial.flow_below(start, duration, flow);
            const std::optional<double> after = trial.start_after(start, duration, flow);
            CHECK(holds == !below);
            CHECK(holds == !after);
            CHECK((!below || *below < flow));
            CHECK((!after || *after >= start));
            held += holds ? 1 : 0;
        }
    }
    CHECK(held > drawn_incidents / 4);
}

TEST_CASE("an attack that is kept is the one that would be drawn", "[twin]") {
    int drawn = 0;
    for (int seed = 1; seed <= drawn_incidents / 4; ++seed) {
        CAPTURE(seed);
        Dice dice(static_cast<std::uint64_t>(seed) + 740'000);
        Incident base = random_incident(dice, {.open_flows = true});
        const double arrives = in_minutes(base.dump_site.engine_arrives);
        base.initial_attack = {gpm(dice.between(100.0, 400.0)), minutes(arrives)};
        const double until = arrives + dice.between(5.0, 60.0);
        // Later tankers come and go, legs and pumps change: as one choice follows the other.
        for (int change = 0; change < 12; ++change) {
            Incident incident = base;
            std::erase_if(incident.tankers, [&](const Tanker&) { return dice.chance(0.2); });
            for (Tanker& tanker : incident.tankers) {
                tanker.leg = {minutes(dice.between(0.5, 12.0)), minutes(dice.between(0.5, 14.0))};
            }
            for (FillSite& site : incident.fill_sites) {
                site.pump = gpm(dice.between(300.0, 3'000.0));
                site.ready = minutes(dice.between(0.0, 30.0));
            }
            run::Trial trial(incident);
            run::Memory fresh;
            run::make_ready(fresh.shuttle, incident);
            for (std::size_t i = 0; i < trial.regimes().size(); ++i) {
                trial.prepare(trial.regimes()[i], until);
                run::fill_by(fresh.shuttle, trial.regimes()[i]);
                run::draw_attack(fresh.shuttle, trial.attack(), until, fresh);
                CHECK(trial.attack_draw().history == fresh.drawn.history);
                CHECK(trial.attack_draw().dry == fresh.drawn.dry);
                CHECK(trial.attack_draw().dry_until == fresh.drawn.dry_until);
                drawn += fresh.drawn.history.size() > 2 ? 1 : 0;
            }
        }
    }
    CHECK(drawn > drawn_incidents);
}

TEST_CASE("an attack that no load waits for is drawn once, and drawing it again changes nothing",
          "[twin]") {
    int drawn = 0;
    for (int seed = 1; seed <= drawn_incidents; ++seed) {
        CAPTURE(seed);
        Dice dice(static_cast<std::uint64_t>(seed) + 730'000);
        Incident incident = random_incident(dice, {.nursing = false});
        incident.dump_site.storage.reset();
        const run::Attack attack{dice.between(50.0, 400.0),
                                 in_minutes(incident.dump_site.engine_arrives)};
        const double until = attack.from + dice.between(5.0, 90.0);
        run::Memory memory;
        run::make_ready(memory.shuttle, incident);
        memory.regimes.find(incident);
        run::fill_by(memory.shuttle, memory.regimes[0]);
        run::draw_attack(memory.shuttle, attack, until, memory);
        const std::vector<run::Knot> once = memory.drawn.history;
        // Under what was found the loads are the same ones.
        run::Schedule<run::Minute> again;
        const std::vector<run::Load<run::Minute>> loads = memory.schedule.loads();
        again.run(memory.shuttle, {until, attack.flow, once.back().drawn, once}, until);
        CHECK(std::ranges::equal(loads, again.loads(), [](const auto& a, const auto& b) {
            return a.first_in.at == b.first_in.at && a.last_in.at == b.last_in.at;
        }));
        CHECK_FALSE(again.follows_draw());
        drawn += memory.drawn.dry > 0.0 ? 1 : 0;
    }
    CHECK(drawn > drawn_incidents / 4);
}
