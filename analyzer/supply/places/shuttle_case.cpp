#include "analyzer/supply/places/shuttle_case.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/chosen_fills.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/places/slots_manned.h"

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

// What closes the gap. Precondition: the clocks are known.
bool can_close_its_gap(const CasePlan& plan) {
    return plan.gap > Duration{} && plan.incident.dump_site.nursing_tankers == 0 &&
           one_can_nurse(plan.incident);
}

ShuttlePlan with_one_that_nurses(ShuttlePlan plan, Window window) {
    plan.incident.dump_site.nursing_tankers = plan.slow.dump_site.nursing_tankers = 1;
    plan.cautious = sustained_flow(plan.slow, window);
    return plan;
}

// Precondition: it can close its gap.
void add_nursing(CasePlan& result, const ShuttlePlan& nursing) {
    result.gap_nursing = first_minutes(nursing.incident, result.window).dry;
    result.nursing_flow =
        std::min(nursing.cautious, sustained_flow(nursing.incident, result.window));
}

// What is told beside the flow is no lower than by the plan that there is to fall back on.
void fall_back_on(CasePlan& plan, const CasePlan& before) {
    plan.later = std::max(plan.later, before.later);
    plan.one_tanker_out = std::max(plan.one_tanker_out, before.one_tanker_out);
    std::ranges::transform(plan.build_up, before.build_up, plan.build_up.begin(),
                           [](HeldFlow a, HeldFlow b) { return std::max(a, b); });
}

// Where the sustained flow is lower, one fill site is kept. By terms all that is told is of one
// plan.
void add_several(CasePlans& plans, const CaseQuestion& asked, const ChosenFills& several) {
    plans.push_back(told_of(asked, several));
    if (asked.judge.by_terms()) {
        return;
    }
    if (plans.back().sustained < plans.front().sustained) {
        plans.pop_back();
        return;
    }
    fall_back_on(plans.back(), plans.front());
}

// What nursing would do stands with each plan; where it is worth it, it is a plan of its own.
void add_nursing(CasePlans& plans, const CaseQuestion& asked,
                 const std::vector<const ChosenFills*>& chosen, HeldFlow easiest) {
    for (std::size_t i = 0, without = plans.size(); i < without; ++i) {
        if (!can_close_its_gap(plans[i]) ||
            (asked.situation.told != Told::everything && plans[i].cautious < easiest)) {
            continue;
        }
        ChosenFills nursing = *chosen[i];
        nursing.plan = with_one_that_nurses(std::move(nursing.plan), asked.judge.window());
        add_nursing(plans[i], nursing.plan);
        const HeldFlow either_way = std::min(plans[i].cautious, plans[i].nursing_flow);
        if (plans[i].gap_nursing < plans[i].gap && either_way >= easiest) {
            plans.push_back(told_of(asked, nursing));
            plans.back().most_needed = either_way;
            fall_back_on(plans.back(), plans[i]);
        }
    }
}

// What is held with more people, by which a further fill site or slot would be run.
void add_gain_of_crew(CasePlan& shuttle, HeldFlow with_people) {
    const std::int32_t more = in_tenths(with_people) - in_tenths(shuttle.sustained);
    const auto crew = std::ranges::find(shuttle.gains, Limit::crew, &Gain::limit);
    if (crew != shuttle.gains.end() && more >= no_gain_below) {
        crew->flow = std::max(crew->flow, tenths_of_gpm(more));
        shuttle.limit = binding_limit(shuttle.gains);
    }
}

void add_gain_of_crew(CasePlans& plans, const ChosenFills& all) {
    const HeldFlow with_people = sustained_flow(all.plan.incident, plans.front().window);
    for (CasePlan& plan : plans) {
        add_gain_of_crew(plan, with_people);
    }
}

// The slots that wait for people, run from the beginning.
void add_gain_of_slots(CasePlan& shuttle, const Assumptions& assumptions) {
    Incident manned = shuttle.incident;
    manned.dump_site = with_all_slots(manned.dump_site, assumptions);
    add_gain_of_crew(shuttle, sustained_flow(manned, shuttle.window));
}

// With the fill sites that there are people for, and what more people would gain.
CasePlans plans_of(CasePlan nothing, const CaseQuestion& asked, const SitesAtHand& sites,
                   const ChosenFills& chosen, const CaseWanted& wanted) {
    const Assumptions& assumptions = asked.situation.district.assumptions;
    const std::size_t manned = fill_sites_manned(
        assumptions, nothing.crew, chosen.plan.incident.tankers.size(), most_fill_sites);
    std::vector<ChosenFills> together;
    if (manned > 1) {
        together = best_together(asked, sites, chosen.plan);
    }
    const ChosenFills* several = best_manned(together, assumptions, nothing.crew);
    const HeldFlow most = several ? several->plan.cautious : chosen.plan.cautious;
    if (wanted.least > HeldFlow{} && most <= wanted.least) {
        nothing.cautious = most;
        nothing.passed_over = true;
        return {nothing};
    }
    CasePlans plans{told_of(asked, chosen)};
    if (several != nullptr) {
        add_several(plans, asked, *several);
    }
    if (!asked.judge.by_terms()) {
        add_nursing(plans, asked, {&chosen, several}, wanted.easiest);
    }
    if (asked.situation.told == Told::flow) {
        return plans;
    }
    if (manned == 1) {
        together = best_together(asked, sites, chosen.plan);
    }
    if (!together.empty() && several != &together.back()) {
        add_gain_of_crew(plans, together.back());
    }
    if (assumptions.offload_slots > 1) {
        for (CasePlan& plan : plans) {
            add_gain_of_slots(plan, assumptions);
        }
    }
    return plans;
}

CasePlans with_tanks_in_use(const Situation& situation, const Scene& scene,
                            const CaseWanted& wanted, bool bounded) {
    CasePlan nothing;
    nothing.window = window_of(situation, scene, wanted.duration);
    nothing.limit = scene.missing;
    nothing.line = scene.line;
    nothing.crew = crew_there(situation, scene, nothing.window.start);
    if (scene.missing != Limit::none) {
        return {nothing};
    }
    const CaseQuestion asked = asked_of(situation, scene, nothing.window);
    const SitesAtHand sites = sites_at_hand(asked);
    if (sites.alone.empty()) {
        nothing.limit = sites.missing;
        return {nothing};
    }
    // Where a second fill site may be opened, the best single one is the beginning of that.
    const bool one_only =
        fill_sites_manned(situation.district.assumptions, nothing.crew, 1, most_fill_sites) == 1;
    const ChosenFills chosen =
        best_alone(asked, sites, bounded, one_only ? wanted.least : HeldFlow{});
    return plans_of(std::move(nothing), asked, sites, chosen, wanted);
}

// The cautious flows from the start and from the late horizon on, with however many fill sites.
std::pair<HeldFlow, HeldFlow> flows_of(const CasePlans& plans) {
    std::pair<HeldFlow, HeldFlow> flows;
    for (const CasePlan& plan : plans) {
        flows = std::max(flows, {plan.cautious, plan.later});
    }
    return flows;
}

// By terms the merit goes first; without, it is that flow.
bool gives_more(const CasePlans& a, const CasePlans& b, bool by_terms) {
    if (by_terms && a.back().merit != b.back().merit) {
        return better(a.back().merit, b.back().merit);
    }
    return flows_of(a) > flows_of(b);
}

bool held_down_by_line(const CasePlans& plans, const TankLine& line) {
    const auto [cautious, later] = flows_of(plans);
    const std::optional<Flow> cap = drawn_from(line).cap();
    return line.used > 1 && cap && std::max(cautious, later) >= held(*cap);
}

CasePlans work_out_by(const Situation& situation, const Scene& scene, const CaseWanted& wanted,
                      bool bounded) {
    CasePlans best = with_tanks_in_use(situation, scene, wanted, bounded);
    if (scene.missing != Limit::none) {
        return best;
    }
    Scene shorter = scene;
    CasePlans last = best;
    while (held_down_by_line(last, shorter.line)) {
        --shorter.line.used;
        shorter.set_up = with_line(shorter.set_up, shorter.line);
        last = with_tanks_in_use(situation, shorter, wanted, bounded);
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

CasePlans work_out(const Situation& situation, const Scene& scene, const CaseWanted& wanted) {
    return work_out_by(situation, scene, wanted, true);
}

CasePlans work_out_plainly(const Situation& situation, const Scene& scene, Duration duration) {
    return work_out_by(situation, scene, {.duration = duration}, false);
}

}  // namespace farwater::supply
