#include "analyzer/supply/places/case_plan.h"

#include <algorithm>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/one_tanker_out.h"
#include "analyzer/supply/unsaid.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

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

void add_clocks(CasePlan& result, const Incident& incident) {
    const FirstMinutes first = first_minutes(incident, result.window);
    result.tank_water = first.tank_water;
    result.continuous = first.continuous;
    result.gap = first.dry;
}

void add_fills(CasePlan& result, const ChosenFills& chosen) {
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
void add_what_else(CasePlan& result, const CaseQuestion& asked, const ShuttlePlan& plan) {
    if (asked.situation.told == Told::everything) {
        result.build_up = build_up(plan.slow, result.window.duration);
    }
    result.one_tanker_out =
        one_tanker_out(asked.situation, asked.scene, plan.slow, result.window, result.cautious);
    result.gains = gains(plan.incident, result.line, result.window, result.sustained);
    result.limit = binding_limit(result.gains);
}

void add_flows(CasePlan& result, const ShuttlePlan& plan, const Assumptions& assumptions) {
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

}  // namespace

CasePlan told_of(const CaseQuestion& asked, const ChosenFills& chosen) {
    CasePlan result;
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
    add_fills(result, chosen);
    return result;
}

}  // namespace farwater::supply
