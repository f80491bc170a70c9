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

Volume on_wheels(const District& district,
                 std::initializer_list<const std::vector<Arrival>*> lists) {
    const Assumptions& assumptions = district.assumptions;
    Volume sum;
    for (const std::vector<Arrival>* list : lists) {
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

}  // namespace

Scene scene_at(const Situation& situation, std::span<const ProfileIndex> profile_of,
               std::span<const Responder> responders, const HoseLay& lay, Duration first_arrival) {
    const Assumptions& assumptions = situation.district.assumptions;
    Scene scene;
    scene.dump_site = lay.dump_site;
    scene.approach = lay.ways();
    scene.lane = lay.lane;
    scene.first_arrival = first_arrival;
    scene.engines =
        arrivals(situation, profile_of, responders, UnitKind::engine, first_arrival,
                 [&](ProfileIndex profile, StationIndex station) {
                     return situation.trips.from_station(profile, station, lay.dump_site);
                 });
    scene.tankers =
        arrivals(situation, profile_of, responders, UnitKind::tanker, first_arrival,
                 [&](ProfileIndex profile, StationIndex station) {
                     return situation.trips.tanker_from_station(profile, station, scene.approach);
                 });
    scene.hose =
        hose_there(situation.district,
                   std::span(scene.engines).first(std::min<std::size_t>(2, scene.engines.size())));
    // Those that hose keeps from the dump site stand at the house, with what is in their tanks.
    const std::vector<Arrival> on_the_near_side =
        lay.approach.valid()
            ? arrivals(situation, profile_of, responders, UnitKind::tanker, first_arrival,
                       [&](ProfileIndex profile, StationIndex station) {
                           return situation.trips.from_station(profile, station, lay.dump_site);
                       })
            : scene.tankers;
    scene.on_wheels = on_wheels(situation.district, {&scene.engines, &on_the_near_side});
    scene.tanks = portable_tanks(situation, scene, first_arrival + assumptions.start_after_arrival);
    if (scene.tankers.empty()) {
        scene.missing = on_the_near_side.empty() ? Limit::fleet : Limit::no_route;
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

}  // namespace farwater::supply
