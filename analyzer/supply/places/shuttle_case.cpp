#include "analyzer/supply/places/shuttle_case.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/chosen_fills.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/places/one_tanker_out.h"
#include "analyzer/supply/unsaid.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

CaseQuestion asked_of(const Situation& situation, const Scene& scene, Window window) {
    const Assumptions& assumptions = situation.district.assumptions;
    std::vector<Tanker> tankers = tankers_of(situation, scene);
    Incident all = incident_at(situation, scene);
    all.tankers = tankers;
    const PlanJudge judge(situation.order, all, scene.first_arrival, window,
                          assumptions.late_horizon, cautious_factor(assumptions));
    return {situation, scene, std::move(tankers), judge};
}

// The best that there are people for, with its own tankers; null: none of them.
const ChosenFills* best_manned(const std::vector<ChosenFills>& together,
                               const Assumptions& assumptions, const CrewThere& crew) {
    const ChosenFills* best = nullptr;
    for (const ChosenFills& chosen : together) {
        const std::size_t sites = chosen.sources.size();
        const std::size_t tankers = chosen.plan.incident.tankers.size();
        best = fill_sites_manned(assumptions, crew, tankers, sites) == sites ? &chosen : best;
    }
    return best;
}

// Of the tankers that are run; those that stand by cannot change the state. What one pumps off into
// the engine is nobody's word, unless its pump is too small for that or the district says it.
Evidence fleet_evidence(const Incident& incident, const Assumptions& assumptions) {
    const Tanker* nurse = first_to_nurse(incident);
    const bool untimed = nurse != nullptr && nurse->nurse_rate == assumptions.nurse &&
                         !assumptions.is_given("nurse_gpm");
    Evidence weakest = untimed ? Evidence::assumed : Evidence::tested;
    for (const Tanker& tanker : incident.tankers) {
        weakest = std::min(weakest, tanker.evidence);
    }
    return weakest;
}

// Of the engines that attack, draft and run the fill sites: a stated value stands for what nobody
// says of tank or pump, and nobody may say with whom or from how far one comes.
Evidence engines_evidence(const CaseQuestion& asked, const ChosenFills& chosen) {
    const District& district = asked.situation.district;
    const Unit& attack = at(district.units, asked.scene.engines[0].unit);
    const Unit& draft = at(district.units, asked.scene.engines[1].unit);
    const auto on_a_blank = [&](UnitIndex unit) {
        return comes_on_a_blank(district, unit, asked.situation.period);
    };
    bool assumed = !attack.tank_known || !draft.pump || on_a_blank(asked.scene.engines[0].unit) ||
                   on_a_blank(asked.scene.engines[1].unit);
    for (std::size_t i = 0; i < chosen.sources.size(); ++i) {
        const UnitIndex engine = chosen.run_by[i].engine;
        assumed = assumed || (chosen.sources[i]->needs_engine && engine.valid() &&
                              (!at(district.units, engine).pump || on_a_blank(engine)));
    }
    return assumed ? Evidence::assumed : Evidence::tested;
}

void add_clocks(ShuttleCase& result, const Incident& incident) {
    const FirstMinutes first = first_minutes(incident, result.window);
    result.tank_water = first.tank_water;
    result.continuous = first.continuous;
    result.gap = first.dry;
}

// What closes the gap. Precondition: the clocks are known.
void add_nursing(ShuttleCase& result, const ShuttlePlan& plan) {
    if (result.gap <= Duration{} || plan.incident.dump_site.nursing_tankers > 0 ||
        !one_can_nurse(plan.incident)) {
        return;
    }
    Incident nursing = plan.incident;
    Incident slow = plan.slow;
    nursing.dump_site.nursing_tankers = slow.dump_site.nursing_tankers = 1;
    result.gap_nursing = first_minutes(nursing, result.window).dry;
    result.nursing_flow =
        std::min(sustained_flow(slow, result.window), sustained_flow(nursing, result.window));
}

void add_fills(ShuttleCase& result, const ChosenFills& chosen) {
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
void add_what_else(ShuttleCase& result, const CaseQuestion& asked, const ShuttlePlan& plan) {
    if (asked.situation.told == Told::everything) {
        result.build_up = build_up(plan.slow, result.window.duration);
    }
    result.one_tanker_out =
        one_tanker_out(asked.situation, asked.scene, plan.slow, result.window, result.cautious);
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

ShuttleCase case_of(const CaseQuestion& asked, const ChosenFills& chosen) {
    ShuttleCase result;
    result.window = asked.judge.window();
    result.merit = chosen.plan.merit;
    result.line = asked.scene.line;
    const Assumptions& assumptions = asked.situation.district.assumptions;
    result.evidence = std::min(fleet_evidence(chosen.plan.incident, assumptions),
                               engines_evidence(asked, chosen));
    result.crew = crew_there(asked.situation, asked.scene, result.window.start);
    const std::size_t tankers = chosen.plan.incident.tankers.size();
    result.crew_needed = crew_needed(assumptions, chosen.sources.size(), tankers,
                                     chosen.plan.incident.dump_site.offload_slots);
    if (chosen.sources.size() > 1 &&
        result.crew.people < crew_needed(assumptions, chosen.sources.size(), tankers)) {
        result.evidence = Evidence::assumed;  // that those who are not listed are enough
    }
    add_flows(result, chosen.plan, assumptions);
    if (asked.situation.told != Told::flow) {
        add_what_else(result, asked, chosen.plan);
    }
    add_clocks(result, chosen.plan.incident);
    if (asked.situation.told == Told::everything) {
        add_nursing(result, chosen.plan);
    }
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

void add_gain_of_crew(ShuttleCase& alone, const ChosenFills& all) {
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
ShuttleCase answer_of(ShuttleCase nothing, const CaseQuestion& asked, const SitesAtHand& sites,
                      const ChosenFills& chosen, HeldFlow least) {
    const Assumptions& assumptions = asked.situation.district.assumptions;
    const std::size_t manned = fill_sites_manned(
        assumptions, nothing.crew, chosen.plan.incident.tankers.size(), most_fill_sites);
    std::vector<ChosenFills> together;
    if (manned > 1) {
        together = best_together(asked, sites, chosen.plan);
    }
    const ChosenFills* several = best_manned(together, assumptions, nothing.crew);
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
        together = best_together(asked, sites, chosen.plan);
    }
    if (!together.empty() && several != &together.back()) {
        add_gain_of_crew(result, together.back());
    }
    if (assumptions.offload_slots > 1) {
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
    const CaseQuestion asked = asked_of(situation, scene, nothing.window);
    const SitesAtHand sites = sites_at_hand(asked);
    if (sites.alone.empty()) {
        nothing.limit = sites.missing;
        return nothing;
    }
    // Where a second fill site may be opened, the best single one is the beginning of that.
    const bool one_only =
        fill_sites_manned(situation.district.assumptions, nothing.crew, 1, most_fill_sites) == 1;
    const ChosenFills chosen = best_alone(asked, sites, bounded, one_only ? least : HeldFlow{});
    return answer_of(std::move(nothing), asked, sites, chosen, least);
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

double cautious_factor(const Assumptions& assumptions) {
    return cautious_factor(assumptions.stage_cv);
}

ShuttleCase work_out(const Situation& situation, const Scene& scene, Duration duration,
                     HeldFlow least) {
    return work_out_by(situation, scene, duration, true, least);
}

ShuttleCase work_out_plainly(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, duration, false, HeldFlow{});
}

}  // namespace farwater::supply
