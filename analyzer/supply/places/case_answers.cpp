#include "analyzer/supply/places/case_answers.h"

#include <algorithm>

#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/first_water.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {

std::optional<HouseLine> house_line(const Situation& situation, const Scene& scene, Point house,
                                    Length lay) {
    const Assumptions& assumptions = situation.district.assumptions;
    const auto size = scene.hose.size_for(lay);
    if (!size) {
        return std::nullopt;
    }
    const ElevationGrid& ground = situation.district.elevation;
    const auto at_house = ground.at(house);
    const auto at_site = ground.at(at(situation.trips.dump_sites, scene.dump_site).place);
    const Length rise = at_house && at_site ? *at_house - *at_site : metres(0);
    return HouseLine{
        *size, rise,
        hydraulics::supply_line_flow(*size, lay, rise, assumptions.supply_line_pressure_psi,
                                     assumptions.residual_pressure_psi),
        scene.hose.listed[static_cast<std::size_t>(*size)] >= lay};
}

namespace {

std::optional<TenthsMinute> sooner(std::optional<TenthsMinute> a, std::optional<TenthsMinute> b) {
    return a && b ? std::min(*a, *b) : a ? a : b;
}

// The case is of an arrival up to half a minute sooner than this house's.
void set_clocks(ParcelSupply& supply, const CasePlan& shuttle) {
    TenthsMinute gap = rounded_up(shuttle.gap);
    if (shuttle.continuous) {
        const TenthsMinute tank = supply.tank_water.value_or(TenthsMinute{});
        const TenthsMinute continuous = std::max(rounded_up(*shuttle.continuous), tank);
        supply.continuous = continuous;
        gap = std::min(gap, TenthsMinute{in_tenths(continuous) - in_tenths(tank)});
    }
    supply.gap = gap;
}

std::uint8_t count_of(std::size_t tankers) {
    return static_cast<std::uint8_t>(std::min<std::size_t>(255, tankers));
}

}  // namespace

CaseAnswers::Answer CaseAnswers::answer_of(const HouseOnFire& fire, const HoseLay& lay) {
    const CasePlan& first = plans_.front();
    ParcelSupply supply = unanswered(fire.need);
    supply.state = SupplyState::tank_only;
    supply.limit = first.limit;
    supply.first_engine = rounded_up(fire.first_arrival);
    supply.tank_water =
        rounded_up(attack_begins(situation_.district.assumptions, fire.first_arrival));
    supply.wheels_gal = static_cast<float>(
        in_gallons(std::max(scene_.on_wheels, least_engine_tank(situation_.district))));
    supply.dump_site = scene_.dump_site;
    supply.approach = scene_.approach;
    supply.lane = scene_.lane;
    supply.single_file = rounded_up(scene_.set_up.single_file);
    supply.hose_ft = static_cast<float>(in_feet(lay.length));
    if (first.tankers > 0) {
        describe(supply, first);
    }
    if (!first.flows() && plans_.size() == 1) {
        return {supply};
    }
    const auto line = house_line(situation_, scene_, fire.place, lay.length);
    if (!line) {
        supply.limit = Limit::hose;
        return {supply};
    }
    const Evidence hose = line->hose_listed ? Evidence::tested : Evidence::assumed;
    supply.evidence = std::min(supply.evidence, hose);
    const ParcelSupply bare = supply;
    if (first.flows()) {
        give(supply, 0, held(line->flow));
        supply.one_site = supply.cautious;
    }
    Answer told{supply};
    for (std::size_t plan = 1; plan < plans_.size(); ++plan) {
        if (fire.need.flow > plans_[plan].most_needed) {
            continue;
        }
        ParcelSupply other = bare;
        other.evidence = std::min(fire.need.evidence, hose);
        describe(other, plans_[plan]);
        give(other, plan, held(line->flow));
        other.one_site = plans_[plan].fills.size() > 1 ? supply.one_site : other.cautious;
        if (worse(situation_.order, told.supply, other)) {
            told = {other, plan};
        }
    }
    return told;
}

void CaseAnswers::describe(ParcelSupply& supply, const CasePlan& shuttle) const {
    supply.tankers = count_of(shuttle.tankers);
    const Tanker* nurse = first_to_nurse(shuttle.incident);
    supply.nurse = nurse != nullptr ? nurse->unit : UnitIndex();
    supply.handbook = held(shuttle.handbook);
    supply.crew_needed = static_cast<std::uint16_t>(shuttle.crew_needed);
    supply.crew_there = static_cast<std::uint16_t>(shuttle.crew.people);
    supply.offload_slots =
        count_of(static_cast<std::size_t>(shuttle.incident.dump_site.offload_slots));
    supply.crew_not_listed = count_of(shuttle.crew.not_listed);
    supply.engines_needed = count_of(
        engines_with_other_jobs +
        static_cast<std::size_t>(std::ranges::count_if(shuttle.fills, [](const FillUse& fill) {
            return fill.run_by.engine.valid() && !fill.run_by.opened_by_tanker;
        })));
    supply.first_at_site = scene_.engines.front().unit;
    supply.makers = {};
    if (scene_.engines.size() >= engines_with_other_jobs) {
        supply.makers.front() = scene_.engines[engines_with_other_jobs - 1].unit;
    }
    for (std::size_t i = 0; i < shuttle.fills.size(); ++i) {
        const RunBy& run_by = shuttle.fills[i].run_by;
        if (!run_by.opened_by_tanker) {
            supply.makers.at(i + 1) = run_by.engine;
        }
    }
    supply.first_tanker = shuttle.fills.front().first_tanker;
    supply.round_trip = rounded_up(shuttle.fills.front().round_trip);
    supply.fill_source = shuttle.fills.front().source;
    supply.tankers_at_fill = count_of(shuttle.fills.front().tankers);
    for (std::size_t i = 1; i < shuttle.fills.size(); ++i) {
        const FillUse& fill = shuttle.fills[i];
        supply.further_fills[i - 1] = {fill.source, fill.first_tanker, rounded_up(fill.round_trip),
                                       count_of(fill.tankers)};
    }
    set_clocks(supply, shuttle);
    supply.evidence = std::min(supply.evidence, shuttle.evidence);
}

void CaseAnswers::give(ParcelSupply& supply, std::size_t plan, HeldFlow line) {
    const CasePlan& shuttle = plans_[plan];
    supply.mode = SupplyMode::shuttle;
    supply.limit = line < shuttle.sustained ? Limit::supply_line : shuttle.limit;
    supply.sustained = std::min(shuttle.sustained, line);
    supply.cautious = std::min(shuttle.cautious, line);
    supply.later = std::min(shuttle.later, line);
    supply.one_tanker_out = std::min(shuttle.one_tanker_out, line);
    const bool asks_for_start =
        situation_.told != Told::flow || situation_.order.terms || supply.cautious < supply.needed;
    if (line >= supply.needed && asks_for_start) {
        supply.earliest_start = situation_.order.terms ? earliest(plan, supply.needed)
                                                       : earliest_of_any_up_to(plan, supply.needed);
    }
    judge(supply, situation_.district.assumptions.firm_margin);
    if (situation_.told == Told::everything) {
        tell_more(supply, plan, line);
    }
}

void CaseAnswers::tell_more(ParcelSupply& supply, std::size_t plan, HeldFlow line) {
    const CasePlan& shuttle = plans_[plan];
    std::ranges::transform(shuttle.build_up, supply.build_up.begin(),
                           [&](HeldFlow flow) { return rounded_down(std::min(flow, line)); });
    for (std::size_t i = 0; i < shuttle.gains.size(); ++i) {
        const std::int32_t with = in_tenths(shuttle.sustained) + in_tenths(shuttle.gains[i].flow);
        const std::int32_t through = std::min(with, in_tenths(line));
        supply.gains[i] = rounded_down(tenths_of_gpm(through - in_tenths(supply.sustained)));
    }
    if (shuttle.gap_nursing) {
        supply.gap_nursing = std::min(rounded_up(*shuttle.gap_nursing),
                                      supply.gap.value_or(rounded_up(*shuttle.gap_nursing)));
        supply.nursing_flow = rounded_down(std::min(shuttle.nursing_flow, line));
    }
    if (supply.cautious < supply.needed && line >= supply.needed) {
        supply.more_tankers = more_tankers(plan, supply.needed);
    }
}

std::uint8_t CaseAnswers::more_tankers(std::size_t plan, HeldFlow needed) {
    constexpr int most = 6;
    const auto [known, is_new] = by_need_[plan].more_tankers.emplace(needed, std::uint8_t{0});
    if (is_new) {
        const CasePlan& shuttle = plans_[plan];
        const auto more = tankers_short(shuttle.slow, shuttle.window, needed, most);
        known->second = static_cast<std::uint8_t>(more.value_or(0));
    }
    return known->second;
}

// A plan falls back on those before it that do not depend on the need.
std::optional<TenthsMinute> CaseAnswers::earliest_of_any_up_to(std::size_t plan, HeldFlow needed) {
    std::optional<TenthsMinute> start = earliest(plan, needed);
    for (std::size_t before = 0; before < plan; ++before) {
        if (plans_[before].most_needed == any_flow) {
            start = sooner(start, earliest(before, needed));
        }
    }
    return start;
}

std::optional<TenthsMinute> CaseAnswers::earliest(std::size_t plan, HeldFlow needed) {
    auto& of_plan = by_need_[plan].earliest;
    const auto known = of_plan.find(needed);
    if (known != of_plan.end()) {
        return known->second;
    }
    const CasePlan& shuttle = plans_[plan];
    const Duration latest =
        std::max(situation_.district.assumptions.late_horizon, shuttle.window.start);
    auto start = earliest_start(shuttle.slow, needed, shuttle.window.duration, latest);
    // The search comes from the latest start, at which tankers of several kinds may fall into a
    // worse order than at the allowed one, where the flow is known to hold.
    if (shuttle.cautious >= needed) {
        start = std::min(start.value_or(shuttle.window.start), shuttle.window.start);
    }
    const auto kept = start ? std::optional(rounded_up(*start)) : std::nullopt;
    of_plan.emplace(needed, kept);
    return kept;
}

}  // namespace farwater::supply
