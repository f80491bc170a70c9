#include "analyzer/supply/places/shuttle_case.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/several/several_sites.h"

namespace farwater::supply {
namespace {

// A fill site that tankers can use, by itself.
struct Alone {
    Incident incident;  // with all of them
    const CountedSource* source = nullptr;
    RunBy run_by;
    Merit quick;  // of a quick choice of tankers
};

// How many of the fill sites that do best with a quick choice are looked at in full.
constexpr std::size_t looked_at_in_full = 2;

Window window_of(const Situation& situation, const Scene& scene, Duration duration) {
    return {.start = situation.order.flow_from(situation.district.assumptions, scene.first_arrival),
            .duration = duration};
}

struct Options {
    std::vector<Alone> best;      // first, the nearer of equals; not more than are looked at
    std::vector<FillOption> all;  // that somebody can fill at, the nearest first
    Limit missing = Limit::no_source;

    void add(Alone option) {
        const auto place = std::ranges::upper_bound(best, option.quick, better, &Alone::quick);
        best.insert(place, std::move(option));
        best.resize(std::min(best.size(), looked_at_in_full));
    }
    // What a fill site has to beat to be among them.
    Merit least() const { return best.size() == looked_at_in_full ? best.back().quick : Merit{}; }
};

// One dump site, one first arrival, one duration.
struct Asked {
    const Situation& situation;
    const Scene& scene;
    std::vector<Tanker> tankers;
    PlanJudge judge;
};

Asked asked_of(const Situation& situation, const Scene& scene, Window window) {
    const Assumptions& assumptions = situation.district.assumptions;
    std::vector<Tanker> tankers = tankers_of(situation, scene);
    Incident all = incident_at(situation, scene);
    all.tankers = tankers;
    const PlanJudge judge(situation.order, all, scene.first_arrival, window,
                          assumptions.late_horizon, cautious_factor(assumptions));
    return {situation, scene, std::move(tankers), judge};
}

Options options_of(const Asked& asked, bool bounded) {
    Options options;
    for (const FillTrip& trip : asked.situation.trips.fill_trips[asked.scene.approach.position()]) {
        FillOption option = fill_option(asked.situation, asked.scene, asked.tankers, trip);
        FillPlan plan = plan_alone(asked.situation, asked.scene, asked.tankers, option);
        if (!plan.usable()) {
            options.missing = plan.missing;
            continue;
        }
        const Merit least = bounded ? options.least() : Merit{};
        const Merit quick = quick_choice(plan.incident, asked.judge, least);
        options.add({std::move(plan.incident), option.source, plan.run_by, quick});
        options.all.push_back(std::move(option));
    }
    return options;
}

// Which tankers, and the source behind each of the incident's fill sites and who runs it.
struct Chosen {
    ShuttlePlan plan;
    std::vector<const CountedSource*> sources;
    std::vector<RunBy> run_by;
};

// Where nothing can be held, the first option with all tankers stands for it. Precondition: there
// is an option.
Chosen best_alone(const Asked& asked, const Options& options) {
    const Alone& first = options.best.front();
    Chosen best{{first.incident, slowed(first.incident, asked.judge.factor()), {}, {}},
                {first.source},
                {first.run_by}};
    for (const Alone& option : options.best) {
        if (auto plan = full_choice(option.incident, asked.judge, best.plan.merit)) {
            best = {std::move(*plan), {option.source}, {option.run_by}};
        }
    }
    return best;
}

std::optional<Chosen> best_together(const Asked& asked, const Options& options,
                                    const ShuttlePlan& alone, std::size_t most_sites) {
    const SeveralQuestion question{asked.situation, asked.scene, asked.tankers,
                                   options.all,     asked.judge, most_sites};
    auto several = best_of_several(question, alone);
    if (!several) {
        return std::nullopt;
    }
    Chosen chosen{std::move(several->plan), {}, std::move(several->run_by)};
    for (const FillOption* option : several->sources) {
        chosen.sources.push_back(option->source);
    }
    return chosen;
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
}

void add_fills(ShuttleCase& result, const Chosen& chosen) {
    for (std::size_t i = 0; i < chosen.sources.size(); ++i) {
        const CountedSource& source = *chosen.sources[i];
        result.fills.push_back({.source = source.source,
                                .tankers = 0,
                                .first_tanker = {},
                                .round_trip = {},
                                .run_by = chosen.run_by[i]});
        result.evidence = std::min(result.evidence, source.evidence);
    }
    for (const Tanker& tanker : chosen.plan.incident.tankers) {
        FillUse& fill = result.fills[tanker.fill_site];
        if (fill.tankers == 0) {
            fill.first_tanker = tanker.unit;
            fill.round_trip = tanker.leg.empty + tanker.leg.loaded;
        }
        ++fill.tankers;
    }
    result.source = result.fills.front().source;
}

void add_flows(ShuttleCase& result, const ShuttlePlan& plan, const Assumptions& assumptions) {
    const Window later{.start = std::max(result.window.start, assumptions.late_horizon),
                       .duration = result.window.duration};
    result.incident = plan.incident;
    result.slow = plan.slow;
    result.sustained = sustained_flow(plan.incident, result.window);
    // Tankers of several kinds may fall into a better order when they are slow: that is not
    // promised.
    result.cautious = std::min(plan.cautious, result.sustained);
    result.later = sustained_flow(plan.slow, later);
    result.build_up = build_up(plan.slow, result.window.duration);
    result.one_tanker_out = std::min(one_tanker_out(plan, result.window), result.cautious);
    result.handbook = handbook_flow(plan.incident);
    result.gains = gains(plan.incident, result.line, result.window, result.sustained);
    result.limit = binding_limit(result.gains);
    result.tankers = plan.incident.tankers.size();
}

ShuttleCase case_of(const Asked& asked, const Chosen& chosen) {
    ShuttleCase result;
    result.window = asked.judge.window();
    result.merit = chosen.plan.merit;
    result.line = asked.scene.line;
    result.evidence = fleet_evidence(chosen.plan.incident);
    result.crew = crew_there(asked.situation, asked.scene, result.window.start);
    result.crew_needed = crew_needed(asked.situation.district.assumptions, chosen.sources.size(),
                                     chosen.plan.incident.tankers.size());
    if (chosen.sources.size() > 1 && result.crew.people < result.crew_needed) {
        result.evidence = Evidence::assumed;  // that those who are not listed are enough
    }
    add_flows(result, chosen.plan, asked.situation.district.assumptions);
    add_clocks(result, chosen.plan.incident);
    add_fills(result, chosen);
    return result;
}

// What is told beside the flow is no lower than with one fill site; where the sustained flow is,
// one fill site is kept. By terms all that is told is of one plan.
void add_several(ShuttleCase& alone, ShuttleCase several, bool by_terms) {
    if (by_terms) {
        alone.several.push_back(std::move(several));
        return;
    }
    if (several.sustained < alone.sustained) {
        return;
    }
    several.later = std::max(several.later, alone.later);
    several.one_tanker_out = std::max(several.one_tanker_out, alone.one_tanker_out);
    std::ranges::transform(several.build_up, alone.build_up, several.build_up.begin(),
                           [](HeldFlow a, HeldFlow b) { return std::max(a, b); });
    alone.several.push_back(std::move(several));
}

// With more people a further fill site would be opened: what that gains in sustained flow.
void add_gain_of_crew(ShuttleCase& shuttle, HeldFlow with_people) {
    const std::int32_t more = in_tenths(with_people) - in_tenths(shuttle.sustained);
    const auto crew = std::ranges::find(shuttle.gains, Limit::crew, &Gain::limit);
    if (crew != shuttle.gains.end() && more >= no_gain_below) {
        crew->flow = tenths_of_gpm(more);
        shuttle.limit = binding_limit(shuttle.gains);
    }
}

constexpr std::size_t most_fill_sites = 3;

// Two or three fill sites beside the one of `alone`, with the people that are there.
void add_together(ShuttleCase& alone, const Asked& asked, const Options& options,
                  const ShuttlePlan& plan) {
    const std::size_t manned = fill_sites_manned(asked.situation.district.assumptions, alone.crew,
                                                 alone.tankers, most_fill_sites);
    if (const auto together = best_together(asked, options, plan, manned)) {
        add_several(alone, case_of(asked, *together), asked.judge.by_terms());
    }
    if (manned == most_fill_sites) {
        return;
    }
    if (const auto all = best_together(asked, options, plan, most_fill_sites)) {
        const HeldFlow with_people = sustained_flow(all->plan.incident, alone.window);
        add_gain_of_crew(alone, with_people);
        for (ShuttleCase& several : alone.several) {
            add_gain_of_crew(several, with_people);
        }
    }
}

ShuttleCase with_tanks_in_use(const Situation& situation, const Scene& scene, Duration duration,
                              bool bounded) {
    ShuttleCase nothing;
    nothing.window = window_of(situation, scene, duration);
    nothing.limit = scene.missing;
    nothing.line = scene.line;
    nothing.crew = crew_there(situation, scene, nothing.window.start);
    if (scene.missing != Limit::none) {
        return nothing;
    }
    const Asked asked = asked_of(situation, scene, nothing.window);
    const Options options = options_of(asked, bounded);
    if (options.best.empty()) {
        nothing.limit = options.missing;
        return nothing;
    }
    const Chosen chosen = best_alone(asked, options);
    ShuttleCase result = case_of(asked, chosen);
    add_together(result, asked, options, chosen.plan);
    return result;
}

// The cautious flows from the start and from the late horizon on, with however many fill sites.
std::pair<HeldFlow, HeldFlow> flows_of(const ShuttleCase& shuttle) {
    std::pair flows{shuttle.cautious, shuttle.later};
    for (const ShuttleCase& several : shuttle.several) {
        flows = std::max(flows, {several.cautious, several.later});
    }
    return flows;
}

// By terms the merit goes first; without, it is that flow.
bool gives_more(const ShuttleCase& a, const ShuttleCase& b, bool by_terms) {
    const auto merit_of = [](const ShuttleCase& shuttle) {
        return shuttle.several.empty() ? shuttle.merit : shuttle.several.front().merit;
    };
    if (by_terms && merit_of(a) != merit_of(b)) {
        return better(merit_of(a), merit_of(b));
    }
    return flows_of(a) > flows_of(b);
}

bool held_down_by_line(const ShuttleCase& shuttle, const TankLine& line) {
    const auto [cautious, later] = flows_of(shuttle);
    const std::optional<Flow> cap = drawn_from(line).cap();
    return line.used > 1 && cap && std::max(cautious, later) >= held(*cap);
}

ShuttleCase work_out_by(const Situation& situation, const Scene& scene, Duration duration,
                        bool bounded) {
    ShuttleCase best = with_tanks_in_use(situation, scene, duration, bounded);
    if (scene.missing != Limit::none || !held_down_by_line(best, scene.line)) {
        return best;
    }
    Scene shorter = scene;
    ShuttleCase last = best;
    while (held_down_by_line(last, shorter.line)) {
        --shorter.line.used;
        shorter.set_up = with_line(shorter.set_up, shorter.line);
        last = with_tanks_in_use(situation, shorter, duration, bounded);
        if (gives_more(last, best, situation.order.terms.has_value())) {
            best = last;
        }
    }
    return best;
}

}  // namespace

double cautious_factor(const Assumptions& assumptions) { return 1.0 + 0.35 * assumptions.stage_cv; }

HeldFlow promise_of(const Situation& situation, const Scene& scene, Duration duration) {
    HeldFlow most{};
    if (scene.missing != Limit::none) {
        return most;
    }
    const Assumptions& assumptions = situation.district.assumptions;
    const Window window = window_of(situation, scene, duration);
    const std::vector<Tanker> tankers = tankers_of(situation, scene);
    for (const FillTrip& trip : situation.trips.fill_trips[scene.approach.position()]) {
        FillPlan plan =
            plan_alone(situation, scene, tankers, fill_option(situation, scene, tankers, trip));
        if (plan.usable()) {
            plan.incident.dump_site.flow_cap = scene.line.draft;  // no line of tanks gives more
            const Incident slow = slowed(plan.incident, cautious_factor(assumptions));
            most = std::max(
                most, held(std::min(resource_bound(slow, window), window_bound(slow, window))));
        }
    }
    return most;
}

ShuttleCase work_out(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, true);
}

ShuttleCase work_out_plainly(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, false);
}

}  // namespace farwater::supply
