#include "analyzer/supply/shuttle_case.h"

#include <algorithm>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/limits.h"

namespace farwater::supply {
namespace {

struct Best {
    Incident incident;
    Incident slow;
    HeldFlow cautious = tenths_of_gpm(-1);
    SourceIndex source;
    bool found = false;
};

Window window_of(const Scene& scene, const Assumptions& assumptions, Duration duration) {
    return {.start = scene.first_arrival + assumptions.start_after_arrival, .duration = duration};
}

// With and without one nursing tanker, where one can.
std::vector<Incident> nursing_choices(const Incident& incident) {
    std::vector<Incident> choices{incident};
    const auto& tankers = incident.tankers;
    if (std::any_of(tankers.begin(), tankers.end(),
                    [](const Tanker& tanker) { return tanker.can_nurse; })) {
        choices.push_back(incident);
        choices.back().dump_site.nursing_tankers = 1;
    }
    return choices;
}

void try_plan(Best& best, const Incident& incident, SourceIndex source, Window window,
              double factor, bool bounded) {
    for (const Incident& choice : nursing_choices(incident)) {
        Incident slow = slowed(choice, factor);
        if (bounded && best.found && held(window_bound(slow, window)) <= best.cautious) {
            continue;
        }
        const HeldFlow cautious = sustained_flow(slow, window);
        if (cautious > best.cautious) {
            best = {choice, std::move(slow), cautious, source, true};
        }
    }
}

Best best_plan(const Situation& situation, const Scene& scene, Window window, bool bounded,
               Limit& missing) {
    Best best;
    const double factor = cautious_factor(situation.district.assumptions);
    for (const FillTrip& trip : situation.trips.fill_trips[scene.dump_site.position()]) {
        const FillPlan plan = plan_with(situation, scene, trip);
        if (!plan.usable()) {
            missing = plan.missing;
            continue;
        }
        try_plan(best, plan.incident, at(situation.fill_places, trip.fill_site).source, window,
                 factor, bounded);
    }
    return best;
}

HeldFlow worst_without_one(const Incident& slow, Window window) {
    HeldFlow worst = tenths_of_gpm(0);
    for (std::size_t i = 0; i < slow.tankers.size(); ++i) {
        Incident without = slow;
        without.tankers.erase(without.tankers.begin() + static_cast<std::ptrdiff_t>(i));
        const HeldFlow flow = sustained_flow(without, window);
        worst = i == 0 ? flow : std::min(worst, flow);
    }
    return worst;
}

Evidence fleet_evidence(const Situation& situation, const Scene& scene) {
    Evidence weakest = Evidence::tested;
    for (const Arrival& arrival : scene.tankers) {
        const Unit& unit = at(situation.district.units, arrival.unit);
        const bool rated = unit.fill_limit && unit.offload;
        weakest = std::min(weakest, !rated           ? Evidence::assumed
                                    : unit.tested_on ? Evidence::tested
                                                     : Evidence::declared);
    }
    return weakest;
}

void add_clocks(ShuttleCase& result, const Best& best) {
    const FirstMinutes first = first_minutes(best.incident, result.window);
    result.tank_water = first.tank_water;
    result.continuous = first.continuous;
    result.gap = first.dry;
    const Leg& leg = best.incident.tankers.front().leg;
    result.round_trip = leg.empty + leg.loaded;
}

Window later_window(const ShuttleCase& result, const Assumptions& assumptions) {
    return {.start = std::max(result.window.start, assumptions.late_horizon),
            .duration = result.window.duration};
}

ShuttleCase work_out_by(const Situation& situation, const Scene& scene, Duration duration,
                        bool bounded) {
    const Assumptions& assumptions = situation.district.assumptions;
    ShuttleCase result;
    result.window = window_of(scene, assumptions, duration);
    result.limit = scene.missing;
    if (scene.missing != Limit::none) {
        return result;
    }
    Limit missing = Limit::no_source;
    const Best best = best_plan(situation, scene, result.window, bounded, missing);
    if (!best.found) {
        result.limit = missing;
        return result;
    }
    result.slow = best.slow;
    result.cautious = best.cautious;
    result.sustained = sustained_flow(best.incident, result.window);
    result.later = sustained_flow(best.slow, later_window(result, assumptions));
    result.one_tanker_out = worst_without_one(best.slow, result.window);
    result.handbook = handbook_flow(best.incident);
    result.limit = binding_limit(gains(best.incident, result.window, result.sustained));
    result.source = best.source;
    result.tankers = best.incident.tankers.size();
    result.evidence = std::min(fleet_evidence(situation, scene),
                               counted_source(situation.water, best.source).evidence);
    add_clocks(result, best);
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
