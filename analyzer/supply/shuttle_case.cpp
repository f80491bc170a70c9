#include "analyzer/supply/shuttle_case.h"

#include <algorithm>
#include <functional>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/limits.h"
#include "analyzer/supply/tanker_choice.h"

namespace farwater::supply {
namespace {

// A fill site that tankers can use.
struct Option {
    Incident incident;  // with all of them
    SourceIndex source;
    HeldFlow quick{};  // the cautious flow of a quick choice of tankers
};

// How many of the fill sites that do best with a quick choice are looked at in full.
constexpr std::size_t looked_at_in_full = 2;

Window window_of(const Scene& scene, const Assumptions& assumptions, Duration duration) {
    return {.start = scene.first_arrival + assumptions.start_after_arrival, .duration = duration};
}

struct Options {
    std::vector<Option> list;  // best first, the nearer of equals; not more than are looked at
    Limit missing = Limit::no_source;

    void add(Option option) {
        const auto place =
            std::ranges::upper_bound(list, option.quick, std::greater<>{}, &Option::quick);
        list.insert(place, std::move(option));
        list.resize(std::min(list.size(), looked_at_in_full));
    }
    // What a fill site has to beat to be among them.
    HeldFlow least() const {
        return list.size() == looked_at_in_full ? list.back().quick : HeldFlow{};
    }
};

Options options_of(const Situation& situation, const Scene& scene, Window window, double factor,
                   bool bounded) {
    Options options;
    for (const FillTrip& trip : situation.trips.fill_trips[scene.dump_site.position()]) {
        FillPlan plan = plan_with(situation, scene, trip);
        if (!plan.usable()) {
            options.missing = plan.missing;
            continue;
        }
        const HeldFlow least = bounded ? options.least() : HeldFlow{};
        const HeldFlow quick = quick_choice(plan.incident, window, factor, least);
        options.add(
            {std::move(plan.incident), at(situation.fill_places, trip.fill_site).source, quick});
    }
    return options;
}

struct Chosen {
    ShuttlePlan plan;
    SourceIndex source;
};

// Where nothing can be held, the first option with all tankers stands for it. Precondition: there
// is an option.
Chosen best_of(const Options& options, Window window, double factor) {
    const Option& first = options.list.front();
    Chosen best{{first.incident, slowed(first.incident, factor), {}}, first.source};
    for (const Option& option : options.list) {
        if (auto plan = full_choice(option.incident, window, factor, best.plan.cautious)) {
            best = {std::move(*plan), option.source};
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

void add_flows(ShuttleCase& result, const ShuttlePlan& plan, const Assumptions& assumptions) {
    const Window later{.start = std::max(result.window.start, assumptions.late_horizon),
                       .duration = result.window.duration};
    result.incident = plan.incident;
    result.slow = plan.slow;
    result.cautious = plan.cautious;
    result.sustained = sustained_flow(plan.incident, result.window);
    result.later = sustained_flow(plan.slow, later);
    result.one_tanker_out = one_tanker_out(plan, result.window);
    result.handbook = handbook_flow(plan.incident);
    result.gains = gains(plan.incident, result.window, result.sustained);
    result.limit = binding_limit(result.gains);
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
    add_flows(result, chosen.plan, assumptions);
    add_clocks(result, chosen.plan.incident);
    result.source = chosen.source;
    result.evidence = std::min(fleet_evidence(chosen.plan.incident),
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
