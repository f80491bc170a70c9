#include "analyzer/supply/places/shuttle_case.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/bounds/choice_bound.h"
#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/places/outdone.h"
#include "analyzer/supply/several/several_sites.h"

namespace farwater::supply {
namespace {

// A fill site that tankers can use, by itself.
struct Alone {
    Incident incident;  // with all of them
    const CountedSource* source = nullptr;
    RunBy run_by;
    Incident most;    // slow, with one that nurses where one can: no choice is better
    HeldFlow flow{};  // no choice has a larger cautious flow
    TriedChoices tried;
};

struct Options {
    std::vector<Alone> alone;     // that somebody can fill at, the nearest first
    std::vector<FillOption> all;  // the same
    std::size_t quickest = 0;     // of them: does best with a quick choice of tankers
    Limit missing = Limit::no_source;
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

Options options_of(const Asked& asked) {
    Options options;
    Merit best;
    for (const FillTrip& trip : asked.situation.trips.fill_trips[asked.scene.approach.position()]) {
        FillOption option = fill_option(asked.situation, asked.scene, asked.tankers, trip);
        FillPlan plan = plan_alone(asked.situation, asked.scene, asked.tankers, option);
        if (!plan.usable()) {
            options.missing = plan.missing;
            continue;
        }
        TriedChoices tried;
        const Merit quick = quick_choice(plan.incident, asked.judge, best, tried);
        if (better(quick, best)) {
            best = quick;
            options.quickest = options.alone.size();
        }
        Incident most = with_nursing(slowed(plan.incident, asked.judge.factor()));
        const HeldFlow flow = held(window_bound(most, asked.judge.window()));
        options.alone.push_back({std::move(plan.incident), option.source, plan.run_by,
                                 std::move(most), flow, std::move(tried)});
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

// Whether another fill site is as good in everything; of two that are equal, the farther is.
bool is_outdone(const Options& options, std::size_t site) {
    const auto choice = [&](std::size_t one) {
        return FillChoice{options.all[one], options.alone[one].incident.fill_sites.front()};
    };
    for (std::size_t other = 0; other < options.alone.size(); ++other) {
        if (other != site && outdoes(choice(other), choice(site)) &&
            (other < site || !outdoes(choice(site), choice(other)))) {
            return true;
        }
    }
    return false;
}

// The one that does best with a quick choice, then those that may hold most; the nearer of equals.
std::vector<const Alone*> most_promising_first(const Options& options, bool bounded) {
    std::vector<const Alone*> order{&options.alone[options.quickest]};
    for (std::size_t site = 0; site < options.alone.size(); ++site) {
        if (site != options.quickest && !(bounded && is_outdone(options, site))) {
            order.push_back(&options.alone[site]);
        }
    }
    std::ranges::stable_sort(order.begin() + 1, order.end(), std::greater<>{},
                             [](const Alone* option) { return option->flow; });
    return order;
}

// Where nothing can be held, or no more than `least`, the first option with all tankers may stand
// for it. Precondition: there is an option.
Chosen best_alone(const Asked& asked, const Options& options, bool bounded, HeldFlow least) {
    const std::vector<const Alone*> order = most_promising_first(options, bounded);
    const Alone& first = *order.front();
    Chosen best{{first.incident, slowed(first.incident, asked.judge.factor()), {}, {}},
                {first.source},
                {first.run_by}};
    for (const Alone* option : order) {
        if (bounded && (option->flow <= least ||
                        !asked.judge.may_be_better_than(best.plan.merit, option->most))) {
            continue;
        }
        // Asked for by itself: what a search finds depends on what it is asked to exceed, and then
        // a further fill site could lower the answer.
        auto plan = full_choice(option->incident, asked.judge, Merit{}, option->tried);
        if (plan && better(plan->merit, best.plan.merit)) {
            best = {std::move(*plan), {option->source}, {option->run_by}};
        }
    }
    return best;
}

// Over two fill sites, then over three where those hold more.
std::vector<Chosen> best_together(const Asked& asked, const Options& options,
                                  const ShuttlePlan& alone) {
    const SeveralQuestion question{asked.situation, asked.scene, asked.tankers,
                                   options.all,     asked.judge, most_fill_sites};
    std::vector<Chosen> found;
    for (SeveralSites& several : improving_sets(question, alone)) {
        Chosen chosen{std::move(several.plan), {}, std::move(several.run_by)};
        for (const FillOption* option : several.sources) {
            chosen.sources.push_back(option->source);
        }
        found.push_back(std::move(chosen));
    }
    return found;
}

// The best with so many fill sites; null: none of them.
const Chosen* best_manned(const std::vector<Chosen>& together, std::size_t sites) {
    const Chosen* best = nullptr;
    for (const Chosen& chosen : together) {
        best = chosen.sources.size() <= sites ? &chosen : best;
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

// What a crew and an officer want to know beside the flow: it costs more runs than that.
void add_what_else(ShuttleCase& result, const ShuttlePlan& plan, Told told) {
    if (told == Told::everything) {
        result.build_up = build_up(plan.slow, result.window.duration);
    }
    result.one_tanker_out = std::min(one_tanker_out(plan, result.window), result.cautious);
    result.gains = gains(plan.incident, result.line, result.window, result.sustained);
    result.limit = binding_limit(result.gains);
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
    result.handbook = handbook_flow(plan.incident);
    result.tankers = plan.incident.tankers.size();
}

ShuttleCase case_of(const Asked& asked, const Chosen& chosen) {
    ShuttleCase result;
    result.window = asked.judge.window();
    result.merit = chosen.plan.merit;
    result.line = asked.scene.line;
    result.evidence = fleet_evidence(chosen.plan.incident);
    result.crew = crew_there(asked.situation, asked.scene, result.window.start);
    const Assumptions& assumptions = asked.situation.district.assumptions;
    const std::size_t tankers = chosen.plan.incident.tankers.size();
    result.crew_needed = crew_needed(assumptions, chosen.sources.size(), tankers,
                                     chosen.plan.incident.dump_site.offload_slots);
    if (chosen.sources.size() > 1 &&
        result.crew.people < crew_needed(assumptions, chosen.sources.size(), tankers)) {
        result.evidence = Evidence::assumed;  // that those who are not listed are enough
    }
    add_flows(result, chosen.plan, assumptions);
    if (asked.situation.told != Told::flow) {
        add_what_else(result, chosen.plan, asked.situation.told);
    }
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

// What is held with more people, by which a further fill site or slot would be run.
void add_gain_of_crew(ShuttleCase& shuttle, HeldFlow with_people) {
    const std::int32_t more = in_tenths(with_people) - in_tenths(shuttle.sustained);
    const auto crew = std::ranges::find(shuttle.gains, Limit::crew, &Gain::limit);
    if (crew != shuttle.gains.end() && more >= no_gain_below) {
        crew->flow = std::max(crew->flow, tenths_of_gpm(more));
        shuttle.limit = binding_limit(shuttle.gains);
    }
}

void add_gain_of_crew(ShuttleCase& alone, const Chosen& all) {
    const HeldFlow with_people = sustained_flow(all.plan.incident, alone.window);
    add_gain_of_crew(alone, with_people);
    for (ShuttleCase& several : alone.several) {
        add_gain_of_crew(several, with_people);
    }
}

// The slots that wait for people, run from the beginning.
void add_gain_of_slots(ShuttleCase& shuttle, const Assumptions& assumptions) {
    Incident manned = shuttle.incident;
    manned.dump_site = with_all_slots(manned.dump_site, assumptions);
    add_gain_of_crew(shuttle, sustained_flow(manned, shuttle.window));
}

// The answer with the fill sites that there are people for, and what more people would gain.
ShuttleCase answer_of(ShuttleCase nothing, const Asked& asked, const Options& options,
                      const Chosen& chosen, HeldFlow least) {
    const std::size_t manned =
        fill_sites_manned(asked.situation.district.assumptions, nothing.crew,
                          chosen.plan.incident.tankers.size(), most_fill_sites);
    std::vector<Chosen> together;
    if (manned > 1) {
        together = best_together(asked, options, chosen.plan);
    }
    const Chosen* several = best_manned(together, manned);
    const HeldFlow most = several ? several->plan.cautious : chosen.plan.cautious;
    if (least > HeldFlow{} && most <= least) {
        nothing.cautious = most;
        nothing.passed_over = true;
        return nothing;
    }
    ShuttleCase result = case_of(asked, chosen);
    if (several != nullptr) {
        add_several(result, case_of(asked, *several), asked.judge.by_terms());
    }
    if (asked.situation.told == Told::flow) {
        return result;
    }
    if (manned == 1) {
        together = best_together(asked, options, chosen.plan);
    }
    if (manned < most_fill_sites && !together.empty()) {
        add_gain_of_crew(result, together.back());
    }
    if (const Assumptions& assumptions = asked.situation.district.assumptions;
        assumptions.offload_slots > 1) {
        add_gain_of_slots(result, assumptions);
        for (ShuttleCase& more : result.several) {
            add_gain_of_slots(more, assumptions);
        }
    }
    return result;
}

ShuttleCase with_tanks_in_use(const Situation& situation, const Scene& scene, Duration duration,
                              bool bounded, HeldFlow least) {
    ShuttleCase nothing;
    nothing.window = window_of(situation, scene, duration);
    nothing.limit = scene.missing;
    nothing.line = scene.line;
    nothing.crew = crew_there(situation, scene, nothing.window.start);
    if (scene.missing != Limit::none) {
        return nothing;
    }
    const Asked asked = asked_of(situation, scene, nothing.window);
    const Options options = options_of(asked);
    if (options.alone.empty()) {
        nothing.limit = options.missing;
        return nothing;
    }
    // Where a second fill site may be opened, the best single one is the beginning of that.
    const bool one_only =
        fill_sites_manned(situation.district.assumptions, nothing.crew, 1, most_fill_sites) == 1;
    const Chosen chosen = best_alone(asked, options, bounded, one_only ? least : HeldFlow{});
    return answer_of(std::move(nothing), asked, options, chosen, least);
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

// Where neither holds more than `least`, neither is worked out.
ShuttleCase work_out_by(const Situation& situation, const Scene& scene, Duration duration,
                        bool bounded, HeldFlow least) {
    ShuttleCase best = with_tanks_in_use(situation, scene, duration, bounded, least);
    if (scene.missing != Limit::none) {
        return best;
    }
    Scene shorter = scene;
    ShuttleCase last = best;
    while (held_down_by_line(last, shorter.line)) {
        --shorter.line.used;
        shorter.set_up = with_line(shorter.set_up, shorter.line);
        last = with_tanks_in_use(situation, shorter, duration, bounded, least);
        if (gives_more(last, best, situation.order.terms.has_value())) {
            best = last;
        }
    }
    return best;
}

}  // namespace

Window window_of(const Situation& situation, const Scene& scene, Duration duration) {
    return {.start = situation.order.flow_from(situation.district.assumptions, scene.first_arrival),
            .duration = duration};
}

double cautious_factor(const Assumptions& assumptions) { return 1.0 + 0.35 * assumptions.stage_cv; }

ShuttleCase work_out(const Situation& situation, const Scene& scene, Duration duration,
                     HeldFlow least) {
    return work_out_by(situation, scene, duration, true, least);
}

ShuttleCase work_out_plainly(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, false, HeldFlow{});
}

}  // namespace farwater::supply
