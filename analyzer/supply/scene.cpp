#include "analyzer/supply/scene.h"

#include <algorithm>
#include <utility>

namespace farwater::supply {
namespace {

const Season& season_of(const Situation& situation) {
    return at(situation.district.seasons, situation.trips.season);
}

// Engines beyond the first two go to the fill sites by themselves, with what they carry.
std::vector<Arrival> at_the_tanks(const District& district, const Scene& scene) {
    const auto engines = std::min(engines_with_other_jobs, scene.engines.size());
    std::vector<Arrival> units(scene.engines.begin(),
                               scene.engines.begin() + static_cast<std::ptrdiff_t>(engines));
    units.insert(units.end(), scene.tankers.begin(), scene.tankers.end());
    sort_by_arrival(district, units);
    return units;
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

// Of those that come when nothing is in their way.
std::vector<Arrival> held_back(std::vector<Arrival> all, const std::vector<Arrival>& at_the_site) {
    std::erase_if(all, [&](const Arrival& arrival) {
        return std::ranges::find(at_the_site, arrival.unit, &Arrival::unit) != at_the_site.end();
    });
    return all;
}

// What a shuttle lacks.
Limit missing_at(const Scene& scene) {
    if (scene.tankers.empty()) {
        return scene.held_back.empty() ? Limit::fleet : Limit::no_route;
    }
    if (scene.engines.size() < 2) {
        return Limit::engines;
    }
    if (scene.tanks.empty()) {
        return scene.line.left.empty() ? Limit::storage : Limit::road_room;
    }
    return Limit::none;
}

// When tanks are up and the draft is, and what stands in them. Others than those who set up the
// draft lay the line meanwhile. Precondition: there is a tank, and an engine to draft.
DumpSite with_tanks(DumpSite site, const Situation& situation, const Scene& scene,
                    std::span<const TanksSetUp> tanks, const TankLine& line) {
    site.tanks_ready = first_up(tanks);
    const Duration set_up = std::max(site.tanks_ready, scene.engines[1].at_scene) +
                            draft_setup(situation.district.assumptions, season_of(situation));
    site.draft_ready = std::max(set_up, scene.to_house.lies);
    return with_line(site, line);
}

}  // namespace

Duration draft_setup(const Assumptions& assumptions, const Season& season) {
    return assumptions.setup_draft + season.extra_setup;
}

std::optional<DumpSite> set_up_without(const Situation& situation, const Scene& scene,
                                       DumpSite site, UnitIndex unit) {
    std::vector<Arrival> carriers = at_the_tanks(situation.district, scene);
    std::erase_if(carriers, [&](const Arrival& arrival) { return arrival.unit == unit; });
    TanksThere there =
        tanks_there(situation, carriers, at(situation.trips.dump_sites, scene.dump_site),
                    situation.order.flow_from(situation.district.assumptions, scene.first_arrival));
    if (there.tanks.empty()) {
        return std::nullopt;
    }
    there.line.draft = scene.line.draft;
    return with_tanks(site, situation, scene, there.tanks, there.line);
}

Scene scene_at(const Situation& situation, std::span<const ProfileIndex> profile_of,
               std::span<const Responder> responders, const HoseLay& lay, Duration first_arrival) {
    const Assumptions& assumptions = situation.district.assumptions;
    Scene scene;
    scene.dump_site = lay.dump_site;
    scene.approach = lay.ways();
    scene.lane = lane_beside_tanks(situation.district,
                                   at(situation.trips.dump_sites, lay.dump_site), lay.lane);
    scene.first_arrival = first_arrival;
    scene.engines =
        engines_at(situation, profile_of, responders, first_arrival,
                   [&](ProfileIndex profile, StationIndex station) {
                       return situation.trips.from_station(profile, station, lay.dump_site);
                   });
    scene.tankers =
        arrivals(situation, profile_of, responders, UnitKind::tanker, first_arrival,
                 [&](ProfileIndex profile, StationIndex station) {
                     return situation.trips.tanker_from_station(profile, station, scene.approach);
                 });
    scene.hose = hose_there(
        situation.district,
        std::span(scene.engines).first(std::min(engines_with_other_jobs, scene.engines.size())));
    if (lay.approach.valid()) {
        scene.held_back = held_back(
            arrivals(situation, profile_of, responders, UnitKind::tanker, first_arrival,
                     [&](ProfileIndex profile, StationIndex station) {
                         return situation.trips.from_station(profile, station, lay.dump_site);
                     }),
            scene.tankers);
    }
    scene.on_wheels =
        on_wheels(situation.district, {&scene.engines, &scene.tankers, &scene.held_back});
    TanksThere there = tanks_there(situation, at_the_tanks(situation.district, scene),
                                   at(situation.trips.dump_sites, scene.dump_site),
                                   situation.order.flow_from(assumptions, first_arrival));
    scene.tanks = std::move(there.tanks);
    scene.line = std::move(there.line);
    scene.room = there.room;
    scene.siphon_of = there.siphon_of;
    scene.missing = missing_at(scene);
    if (scene.missing != Limit::none) {
        return scene;
    }
    const Unit& attack = at(situation.district.units, scene.engines[0].unit);
    const Unit& draft = at(situation.district.units, scene.engines[1].unit);
    if (assumptions.offload_slots > 1 && lay.single_file_s == 0) {
        scene.people = people_from(situation, scene.engines, scene.tankers);
    }
    scene.set_up = with_slots_manned({}, assumptions, scene.people, 1);
    scene.set_up.single_file = minutes(lay.single_file_s / 60.0);
    scene.set_up.engine_tank = attack.tank;
    scene.set_up.engine_arrives = first_arrival;
    scene.set_up.nurse_hookup = assumptions.nurse_hookup;
    scene.line.draft = std::min(assumptions.strainer, draft.pump.value_or(assumptions.engine_pump));
    scene.to_house = line_laid(situation.district,
                               std::span(scene.engines).first(engines_with_other_jobs), lay.length);
    scene.set_up = with_tanks(scene.set_up, situation, scene, scene.tanks, scene.line);
    return scene;
}

}  // namespace farwater::supply
