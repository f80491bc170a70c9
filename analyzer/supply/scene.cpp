#include "analyzer/supply/scene.h"

#include <algorithm>

#include "analyzer/hydraulics/portable_tank.h"

namespace farwater::supply {
namespace {

const Season& season_of(const Situation& situation) {
    return at(situation.district.seasons, situation.trips.season);
}

// Of the tanks that a unit carries, those that are set up; 0 where there is no room.
Volume usable_of(const Unit& unit, int set_up, int carried, const DumpSiteCandidate& site,
                 const Assumptions& assumptions) {
    if (set_up <= 0) {
        return gallons(0);
    }
    return hydraulics::usable_of_portable_tank(
        unit.portable_tank * (static_cast<double>(set_up) / carried),
        assumptions.portable_tank_depth, assumptions.portable_tank_heel,
        assumptions.portable_tank_slope_loss * site.grade_pct.value_or(0.0));
}

// Portable tanks of the units in order of arrival, as many as are set up; only those that are up
// when the flow has to hold count.
std::vector<TanksSetUp> portable_tanks(const Situation& situation, const Scene& scene,
                                       Duration start) {
    const Assumptions& assumptions = situation.district.assumptions;
    std::vector<Arrival> carriers = scene.engines;
    carriers.insert(carriers.end(), scene.tankers.begin(), scene.tankers.end());
    std::ranges::sort(carriers, arrives_before);
    const DumpSiteCandidate& site = at(situation.trips.dump_sites, scene.dump_site);
    int room = assumptions.most_portable_tanks;
    if (site.officers_place) {
        room = std::min(
            room, situation.district.dump_site_places[*site.officers_place].portable_tanks.value_or(
                      room));
    }
    std::vector<TanksSetUp> tanks;
    for (const Arrival& carrier : carriers) {
        const Unit& unit = at(situation.district.units, carrier.unit);
        const Duration up =
            carrier.at_scene + assumptions.setup_portable_tank + season_of(situation).extra_setup;
        const int carried = unit.portable_tank > gallons(0) ? std::max(1, unit.portable_tanks) : 0;
        const int set_up = std::min(room, carried);
        const Volume usable = usable_of(unit, set_up, carried, site, assumptions);
        if (usable <= gallons(0) || (!tanks.empty() && up > start)) {
            continue;
        }
        tanks.push_back({carrier.unit, set_up, usable, up});
        room -= set_up;
    }
    return tanks;
}

Duration first_up(const std::vector<TanksSetUp>& tanks) {
    return std::ranges::min_element(tanks, {}, &TanksSetUp::up)->up;
}

Volume usable_of_all(const std::vector<TanksSetUp>& tanks) {
    Volume sum;
    for (const TanksSetUp& of_unit : tanks) {
        sum += of_unit.usable;
    }
    return sum;
}

Volume on_wheels(const District& district, const Scene& scene) {
    const Assumptions& assumptions = district.assumptions;
    Volume sum;
    for (const auto* list : {&scene.engines, &scene.tankers}) {
        for (const Arrival& arrival : *list) {
            const Unit& unit = at(district.units, arrival.unit);
            const bool engine = unit.kind == UnitKind::engine;
            if (arrival.at_scene <= assumptions.late_horizon) {
                sum += engine ? unit.tank : unit.tank * assumptions.delivered_fraction;
            }
        }
    }
    return sum;
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

Tanker tanker_from(const Situation& situation, const Scene& scene, const Arrival& arrival,
                   const FillTrip& trip) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Unit& unit = at(situation.district.units, arrival.unit);
    const LegTimes& legs = trip.legs[arrival.profile.position()];
    const bool backs = unit.backs_to_offload || scene.lane == LaneClass::dead_end;
    const bool backs_to_fill =
        at(situation.trips.fill_lanes, trip.fill_site) == LaneClass::dead_end;
    Tanker tanker;
    tanker.unit = arrival.unit;
    tanker.delivered = unit.tank * assumptions.delivered_fraction;
    tanker.refilled = unit.tank * assumptions.refill_fraction;
    tanker.fill_limit = unit.fill_limit.value_or(assumptions.fill_limit);
    tanker.offload = unit.offload.value_or(assumptions.offload);
    tanker.fill_before =
        assumptions.fill_before + (backs_to_fill ? assumptions.backing : minutes(0));
    tanker.fill_after = assumptions.fill_after;
    tanker.offload_before = assumptions.offload_before + (backs ? assumptions.backing : minutes(0));
    tanker.offload_after = assumptions.offload_after;
    tanker.arrives = arrival.at_scene;
    tanker.can_nurse = unit.pump.has_value();
    tanker.evidence = rates_evidence(unit, assumptions);
    tanker.leg = {.empty = duration_of(legs.empty), .loaded = duration_of(legs.loaded)};
    return tanker;
}

// Who runs the fill site, and from when.
struct FillEngine {
    UnitIndex unit;
    Duration ready;
    Flow pump;  // rated
};

// The first engine that has no other job and can have the fill site running; none = there is none.
std::optional<FillEngine> fill_engine(const Situation& situation, const Scene& scene,
                                      FillSiteIndex fill_site, Duration setup) {
    std::optional<FillEngine> first;
    for (std::size_t i = 2; i < scene.engines.size(); ++i) {
        const Arrival& engine = scene.engines[i];
        const Unit& unit = at(situation.district.units, engine.unit);
        const DriveTime drive =
            situation.trips.station_to_fill_site(engine.profile, unit.station, fill_site);
        const Duration there = engine.leaves + duration_of(drive) + setup;
        if (reachable(drive) && (!first || there < first->ready)) {
            first = {engine.unit, there,
                     unit.pump.value_or(situation.district.assumptions.engine_pump)};
        }
    }
    return first;
}

// The first tanker opens a hydrant itself when it comes to fill.
Duration first_tanker_ready(const std::vector<Tanker>& tankers, Duration setup) {
    Duration first = minutes(1e6);
    for (const Tanker& tanker : tankers) {
        const Duration offload =
            tanker.offload_before + tanker.delivered / tanker.offload + tanker.offload_after;
        first = std::min(first, tanker.arrives + offload + tanker.leg.empty);
    }
    return first + setup;
}

}  // namespace

Scene scene_at(const Situation& situation, std::span<const ProfileIndex> profile_of,
               std::span<const Responder> responders, DumpSiteIndex dump_site, LaneClass lane,
               Duration first_arrival) {
    const Assumptions& assumptions = situation.district.assumptions;
    Scene scene;
    scene.dump_site = dump_site;
    scene.lane = lane;
    scene.first_arrival = first_arrival;
    const auto drive_to = [&](ProfileIndex profile, StationIndex station) {
        return situation.trips.from_station(profile, station, dump_site);
    };
    scene.engines =
        arrivals(situation, profile_of, responders, UnitKind::engine, first_arrival, drive_to);
    scene.tankers =
        arrivals(situation, profile_of, responders, UnitKind::tanker, first_arrival, drive_to);
    scene.hose =
        hose_there(situation.district,
                   std::span(scene.engines).first(std::min<std::size_t>(2, scene.engines.size())));
    scene.on_wheels = on_wheels(situation.district, scene);
    scene.tanks = portable_tanks(situation, scene, first_arrival + assumptions.start_after_arrival);
    if (scene.tankers.empty()) {
        scene.missing = Limit::fleet;
    } else if (scene.engines.size() < 2) {
        scene.missing = Limit::engines;
    } else if (scene.tanks.empty()) {
        scene.missing = Limit::storage;
    }
    if (scene.missing != Limit::none) {
        return scene;
    }
    const Unit& attack = at(situation.district.units, scene.engines[0].unit);
    const Unit& draft = at(situation.district.units, scene.engines[1].unit);
    const Duration tanks_up = first_up(scene.tanks);
    const Duration draft_there = std::max(tanks_up, scene.engines[1].at_scene);
    scene.set_up.offload_slots = assumptions.offload_slots;
    scene.set_up.storage = usable_of_all(scene.tanks);
    scene.set_up.engine_tank = attack.tank > gallons(0) ? attack.tank : assumptions.engine_tank;
    scene.set_up.engine_arrives = first_arrival;
    scene.set_up.tanks_ready = tanks_up;
    scene.set_up.draft_ready =
        draft_there + assumptions.setup_draft + season_of(situation).extra_setup;
    scene.set_up.flow_cap =
        std::min(assumptions.strainer, draft.pump.value_or(assumptions.engine_pump));
    return scene;
}

FillPlan plan_with(const Situation& situation, const Scene& scene, const FillTrip& trip) {
    const Assumptions& assumptions = situation.district.assumptions;
    FillPlan plan;
    for (const Arrival& arrival : scene.tankers) {
        const LegTimes& legs = trip.legs[arrival.profile.position()];
        if (reachable(legs.empty) && reachable(legs.loaded)) {
            plan.incident.tankers.push_back(tanker_from(situation, scene, arrival, trip));
        }
    }
    if (plan.incident.tankers.empty()) {
        plan.missing = Limit::no_route;
        return plan;
    }
    const CountedSource& source =
        counted_source(situation.water, at(situation.fill_places, trip.fill_site).source);
    const Duration setup = source.setup + season_of(situation).extra_setup;
    const auto engine = fill_engine(situation, scene, trip.fill_site, setup);
    std::optional<Duration> ready = engine ? std::optional(engine->ready) : std::nullopt;
    if (!source.needs_engine) {
        const Duration by_tanker = first_tanker_ready(plan.incident.tankers, setup);
        plan.opened_by_tanker = !ready || by_tanker < *ready;
        ready = ready ? std::min(*ready, by_tanker) : by_tanker;
    }
    if (!ready) {
        plan.missing = Limit::engines;
        return plan;
    }
    plan.engine = engine ? engine->unit : UnitIndex{};
    plan.incident.dump_site = scene.set_up;
    plan.incident.fill_sites = {{.places = source.places,
                                 .flows = std::nullopt,
                                 .pump = source.with_pump(engine ? engine->pump : gpm(0)),
                                 .ready = *ready,
                                 .usable = source.usable,
                                 .inflow = source.inflow}};
    plan.incident.initial_attack = {
        .flow = assumptions.initial_attack,
        .from = scene.first_arrival + assumptions.initial_attack_after_arrival};
    return plan;
}

}  // namespace farwater::supply
