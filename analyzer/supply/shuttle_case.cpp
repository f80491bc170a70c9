#include "analyzer/supply/shuttle_case.h"

#include <algorithm>
#include <functional>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/limits.h"
#include "analyzer/supply/tanker_choice.h"

namespace farwater::supply {
namespace {

// A fill site that tankers can use, as the choice sees it.
struct Option {
    Incident incident;
    SourceIndex source;
    HeldFlow quick{};  // cautious flow of the quick choice of tankers
};

// How many of the quick choice's best fill sites are looked at in full.
constexpr std::size_t looked_at_in_full = 2;

Window window_of(const Scene& scene, const Assumptions& assumptions, Duration duration) {
    return {.start = scene.first_arrival + assumptions.start_after_arrival, .duration = duration};
}

// With and without one nursing tanker, where one can.
std::vector<Incident> nursing_choices(const Incident& incident) {
    std::vector<Incident> choices{incident};
    const auto& tankers = incident.tankers;
    if (std::ranges::any_of(tankers, [](const Tanker& tanker) { return tanker.can_nurse; })) {
        choices.push_back(incident);
        choices.back().dump_site.nursing_tankers = 1;
    }
    return choices;
}

// No choice of tankers beats the bound of them all.
bool cannot_beat(const Incident& incident, Window window, double factor, HeldFlow best) {
    return held(window_bound(slowed(incident, factor), window)) <= best;
}

struct Options {
    std::vector<Option> list;  // best first; the nearer of equals
    Limit missing = Limit::no_source;
};

Options options_of(const Situation& situation, const Scene& scene, Window window, double factor,
                   bool bounded) {
    Options options;
    std::vector<HeldFlow> best;  // as many as are looked at in full, descending
    for (const FillTrip& trip : situation.trips.fill_trips[scene.dump_site.position()]) {
        FillPlan plan = plan_with(situation, scene, trip);
        if (!plan.usable()) {
            options.missing = plan.missing;
            continue;
        }
        if (bounded && best.size() == looked_at_in_full &&
            cannot_beat(plan.incident, window, factor, best.back())) {
            continue;
        }
        const HeldFlow quick = quick_choice(plan.incident, window, factor).cautious;
        options.list.push_back(
            {std::move(plan.incident), at(situation.fill_places, trip.fill_site).source, quick});
        best.insert(std::ranges::upper_bound(best, quick, std::greater<>{}), quick);
        best.resize(std::min(best.size(), looked_at_in_full));
    }
    std::ranges::stable_sort(options.list,
                             [](const Option& a, const Option& b) { return a.quick > b.quick; });
    options.list.resize(std::min(options.list.size(), looked_at_in_full));
    return options;
}

struct Chosen {
    FullChoice choice;
    SourceIndex source;
};

// Precondition: there is an option.
Chosen best_of(const Options& options, Window window, double factor) {
    Chosen best;
    best.choice.plan.cautious = tenths_of_gpm(-1);
    for (const Option& option : options.list) {
        for (const Incident& incident : nursing_choices(option.incident)) {
            FullChoice choice = full_choice(incident, window, factor);
            if (choice.plan.cautious > best.choice.plan.cautious) {
                best = {std::move(choice), option.source};
            }
        }
    }
    return best;
}

// Of the tankers that are run; those that stand by cannot change the state.
Evidence fleet_evidence(const Incident& incident) {
    Evidence weakest = Evidence::tested;
    for (const Tanker& tanker : incident.tankers) {
        weakest = std::min(weakest, tanker.evidence);
    }
    return weakest;
}

void add_clocks(ShuttleCase& result, const Incident& incident) {
    const FirstMinutes first = first_minutes(incident, result.window);
    result.tank_water = first.tank_water;
    result.continuous = first.continuous;
    result.gap = first.dry;
    const Leg& leg = incident.tankers.front().leg;
    result.first_tanker = incident.tankers.front().unit;
    result.round_trip = leg.empty + leg.loaded;
}

void add_flows(ShuttleCase& result, const FullChoice& choice, const Assumptions& assumptions) {
    const ShuttlePlan& plan = choice.plan;
    const Window later{.start = std::max(result.window.start, assumptions.late_horizon),
                       .duration = result.window.duration};
    result.slow = plan.slow;
    result.cautious = plan.cautious;
    result.sustained = sustained_flow(plan.incident, result.window);
    result.later = sustained_flow(plan.slow, later);
    result.one_tanker_out = choice.one_tanker_out;
    result.handbook = handbook_flow(plan.incident);
    result.limit = binding_limit(gains(plan.incident, result.window, result.sustained));
    result.tankers = plan.incident.tankers.size();
}

ShuttleCase work_out_by(const Situation& situation, const Scene& scene, Duration duration,
                        bool bounded) {
    const Assumptions& assumptions = situation.district.assumptions;
    const double factor = cautious_factor(assumptions);
    ShuttleCase result;
    result.window = window_of(scene, assumptions, duration);
    result.limit = scene.missing;
    if (scene.missing != Limit::none) {
        return result;
    }
    const Options options = options_of(situation, scene, result.window, factor, bounded);
    if (options.list.empty()) {
        result.limit = options.missing;
        return result;
    }
    const Chosen chosen = best_of(options, result.window, factor);
    add_flows(result, chosen.choice, assumptions);
    add_clocks(result, chosen.choice.plan.incident);
    result.source = chosen.source;
    result.evidence = std::min(fleet_evidence(chosen.choice.plan.incident),
                               counted_source(situation.water, chosen.source).evidence);
    return result;
}

}  // namespace

double cautious_factor(const Assumptions& assumptions) { return 1.0 + 0.35 * assumptions.stage_cv; }

ShuttleCase work_out(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, true);
}

ShuttleCase work_out_plainly(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, false);
}

}  // namespace farwater::supply
