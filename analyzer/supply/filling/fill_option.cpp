#include "analyzer/supply/filling/fill_option.h"

#include <algorithm>

#include "analyzer/supply/places/first_water.h"
#include "analyzer/supply/unsaid.h"

namespace farwater::supply {
namespace {

const Season& season_now(const Situation& situation) {
    return at(situation.district.seasons, situation.trips.season);
}

// A planning default that the district set itself is its own word.
Evidence rates_evidence(const Unit& unit, const Assumptions& assumptions) {
    const bool fill_known = unit.fill_limit || assumptions.is_given("fill_limit_gpm");
    const bool offload_known = unit.offload || assumptions.is_given("offload_gpm");
    if (!fill_known || !offload_known) {
        return Evidence::assumed;
    }
    return unit.fill_limit && unit.offload && unit.tested_on ? Evidence::tested
                                                             : Evidence::declared;
}

Tanker tanker_from(const Situation& situation, const Scene& scene, const Arrival& arrival) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Unit& unit = at(situation.district.units, arrival.unit);
    const bool backs = unit.backs_to_offload || scene.lane == LaneClass::dead_end;
    Tanker tanker;
    tanker.unit = arrival.unit;
    tanker.delivered = unit.tank * assumptions.delivered_fraction;
    tanker.refilled = unit.tank * assumptions.refill_fraction;
    tanker.fill_limit = unit.fill_limit.value_or(assumptions.fill_limit);
    tanker.offload = unit.offload.value_or(assumptions.offload);
    tanker.fill_before = assumptions.fill_before;
    tanker.fill_after = assumptions.fill_after;
    tanker.offload_before = assumptions.offload_before + (backs ? assumptions.backing : minutes(0));
    tanker.offload_after = assumptions.offload_after;
    tanker.arrives = arrival.at_scene;
    tanker.can_nurse = unit.pump.value_or(Flow{}) > Flow{};
    tanker.nurse_rate = std::min(unit.pump.value_or(Flow{}), assumptions.nurse);
    tanker.evidence = comes_on_a_blank(situation.district, arrival.unit, situation.period)
                          ? Evidence::assumed
                          : rates_evidence(unit, assumptions);
    return tanker;
}

std::optional<Leg> leg_of(const LegTimes& legs) {
    if (!reachable(legs.empty) || !reachable(legs.loaded)) {
        return std::nullopt;
    }
    return Leg{.empty = duration_of(legs.empty), .loaded = duration_of(legs.loaded)};
}

std::vector<std::optional<Duration>> run_by_engines(const Situation& situation, const Scene& scene,
                                                    FillSiteIndex fill_site, Duration setup) {
    std::vector<std::optional<Duration>> run_by(scene.engines.size());
    for (std::size_t i = engines_with_other_jobs; i < scene.engines.size(); ++i) {
        const Arrival& engine = scene.engines[i];
        const DriveTime drive = situation.trips.station_to_fill_site(
            engine.profile, at(situation.district.units, engine.unit).station, fill_site);
        if (reachable(drive)) {
            run_by[i] = engine.leaves + duration_of(drive) + setup;
        }
    }
    return run_by;
}

// A tanker opens a hydrant itself when it first comes to fill.
Duration opened_by(const Tanker& tanker, const Leg& leg, Duration setup) {
    const Duration offload =
        tanker.offload_before + tanker.delivered / tanker.offload + tanker.offload_after;
    return tanker.arrives + offload + leg.empty + setup;
}

// The engine that has it running first, by its place in the scene's list; none = no engine can.
std::optional<std::size_t> first_engine(const FillOption& option) {
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < option.run_by.size(); ++i) {
        if (option.run_by[i] && (!first || *option.run_by[i] < *option.run_by[*first])) {
            first = i;
        }
    }
    return first;
}

}  // namespace

bool FillOption::reached() const {
    return std::ranges::any_of(legs, [](const auto& leg) { return leg.has_value(); });
}

std::vector<Tanker> tankers_of(const Situation& situation, const Scene& scene) {
    std::vector<Tanker> tankers;
    tankers.reserve(scene.tankers.size());
    for (const Arrival& arrival : scene.tankers) {
        tankers.push_back(tanker_from(situation, scene, arrival));
    }
    return tankers;
}

FillOption fill_option(const Situation& situation, const Scene& scene,
                       const std::vector<Tanker>& tankers, const FillTrip& trip) {
    FillOption option;
    option.source =
        &counted_source(situation.water, at(situation.fill_places, trip.fill_site).source);
    option.places = option.source->places;
    const bool backs = at(situation.trips.fill_lanes, trip.fill_site) == LaneClass::dead_end;
    option.backing = backs ? situation.district.assumptions.backing : minutes(0);
    const Duration setup = option.source->setup + season_now(situation).extra_setup;
    option.run_by = run_by_engines(situation, scene, trip.fill_site, setup);
    option.opened_by.resize(tankers.size());
    for (std::size_t t = 0; t < tankers.size(); ++t) {
        option.legs.push_back(leg_of(trip.legs[scene.tankers[t].profile.position()]));
        if (option.legs[t] && !option.source->needs_engine) {
            option.opened_by[t] = opened_by(tankers[t], *option.legs[t], setup);
        }
    }
    return option;
}

Incident incident_at(const Situation& situation, const Scene& scene, std::size_t fill_sites) {
    const Assumptions& assumptions = situation.district.assumptions;
    return {.dump_site = with_slots_manned(scene.set_up, assumptions, scene.people, fill_sites),
            .fill_sites = {},
            .tankers = {},
            .initial_attack = {.flow = assumptions.initial_attack,
                               .from = attack_begins(assumptions, scene.first_arrival)}};
}

Flow pump_of(const Situation& situation, const Arrival& engine) {
    return at(situation.district.units, engine.unit)
        .pump.value_or(situation.district.assumptions.engine_pump);
}

FillPlan plan_alone(const Situation& situation, const Scene& scene,
                    const std::vector<Tanker>& tankers, const FillOption& option) {
    FillPlan plan;
    plan.incident = incident_at(situation, scene);
    const auto engine = first_engine(option);
    Duration ready = engine ? *option.run_by[*engine] : never_ready;
    for (std::size_t t = 0; t < tankers.size(); ++t) {
        if (!option.legs[t]) {
            continue;
        }
        plan.incident.tankers.push_back(tankers[t]);
        plan.incident.tankers.back().leg = *option.legs[t];
        if (const auto& opened = option.opened_by[t]; opened && *opened < ready) {
            ready = *opened;
            plan.run_by.opened_by_tanker = true;
        }
    }
    if (!option.reached() || ready == never_ready) {
        plan.missing = option.reached() ? Limit::engines : Limit::no_route;
        return plan;
    }
    plan.run_by.engine = engine ? scene.engines[*engine].unit : UnitIndex{};
    const Flow rated = engine ? pump_of(situation, scene.engines[*engine]) : gpm(0);
    plan.incident.fill_sites = {{.places = option.places,
                                 .flows = std::nullopt,
                                 .pump = option.source->with_pump(rated),
                                 .ready = ready,
                                 .usable = option.source->usable,
                                 .inflow = option.source->inflow,
                                 .backing = option.backing}};
    return plan;
}

FillPlan plan_with(const Situation& situation, const Scene& scene, const FillTrip& trip) {
    const std::vector<Tanker> tankers = tankers_of(situation, scene);
    return plan_alone(situation, scene, tankers, fill_option(situation, scene, tankers, trip));
}

}  // namespace farwater::supply
