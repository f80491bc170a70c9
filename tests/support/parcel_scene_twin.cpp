// Who is at a parcel's fire with what, and the incident that follows: part of parcel_twin.h.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "tests/support/parcel_twin.h"
#include "tests/support/slow_source.h"

namespace farwater::slow {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

// --- who is there when --------------------------------------------------------------------------

struct There {
    UnitIndex unit;
    const Profile* profile = nullptr;
    double left = 0.0;  // the station, minutes since the alarm
    double at = 0.0;
};

// Minutes; infinity where there is no way within the trip limit.
double drive(const Town& town, Hour hour, const There& unit, Point to) {
    const Station& station = at(town.district.stations, at(town.district.units, unit.unit).station);
    const auto from = driven_to(town, station.place, town.of_anyone);
    const auto there = driven_to(town, to, town.of_tankers);
    if (!from || !there) {
        return no_limit;
    }
    const PieceCosts times = drive_times(town.district, town.streets, *unit.profile,
                                         at(town.district.seasons, hour.season), true);
    const double way = static_cast<double>(way_between(town.streets, times, *from, *there)) / 600.0;
    const bool too_far = way > in_minutes(town.district.assumptions.trip_limit) + 1e-9;
    return too_far ? no_limit
                   : way + in_minutes(to_gate_in(station, at(town.district.seasons, hour.season)));
}

std::vector<There> by_arrival(std::vector<There> list) {
    std::ranges::stable_sort(list, [](const There& a, const There& b) {
        return a.at != b.at ? a.at < b.at : a.unit < b.unit;
    });
    return list;
}

// The nearest of them; more are not sent.
std::vector<There> who_is_there(const Town& town, Hour hour, std::size_t parcel, UnitKind kind,
                                double first_arrival, Point place) {
    std::vector<There> list;
    for (const Coming& coming : who_comes(town, hour, town.district.parcels[parcel].zone)) {
        for (const Profile& profile : town.profiles) {
            if (profile.kind == kind && std::ranges::count(profile.members, coming.unit) > 0) {
                There unit{coming.unit, &profile, in_minutes(coming.rolls), 0.0};
                if (coming.asked_for) {
                    unit.left +=
                        first_arrival + in_minutes(town.district.assumptions.request_delay);
                }
                unit.at = unit.left + drive(town, hour, unit, place);
                if (unit.at < no_limit) {
                    list.push_back(unit);
                }
            }
        }
    }
    list = by_arrival(std::move(list));
    const Assumptions& a = town.district.assumptions;
    const int sent = kind == UnitKind::engine ? a.most_engines : a.most_tankers;
    list.resize(std::min(list.size(), static_cast<std::size_t>(sent)));
    return list;
}

// --- what they set up ---------------------------------------------------------------------------

double extra_setup(const Town& town, Hour hour) {
    return in_minutes(at(town.district.seasons, hour.season).extra_setup);
}

struct Tanks {
    double up = no_limit;
    std::vector<double> usable;  // each, by arrival of their carriers
    double siphon = 0.0;         // the best that is there; 0 = none
};

// The tanks of the first carriers, as many as there is room for; those that are not up at the start
// do not count, unless there is no other; and the siphons that are there by the start. `lost` is
// the share that the slope takes.
Tanks tanks_of(const Town& town, Hour hour, const std::vector<There>& there, double start, int room,
               double lost) {
    const Assumptions& a = town.district.assumptions;
    Tanks tanks;
    for (const There& carrier : there) {
        const Unit& unit = at(town.district.units, carrier.unit);
        const double gallons_there = in_gallons(unit.portable_tank);
        const double up = carrier.at + in_minutes(a.setup_portable_tank) + extra_setup(town, hour);
        const int carried = gallons_there > 0.0 ? std::max(unit.portable_tanks, 1) : 0;
        const int placed = std::min(carried, room);
        const double left = 1.0 - a.portable_tank_heel / a.portable_tank_depth - lost;
        if (placed > 0 && left > 0.0 && (tanks.usable.empty() || up <= start)) {
            tanks.up = std::min(tanks.up, up);
            for (int i = 0; i < placed; ++i) {
                tanks.usable.push_back(gallons_there / carried * left);
            }
            room -= placed;
        }
        if (unit.jet_siphons > 0 && carrier.at <= start) {
            tanks.siphon = std::max(tanks.siphon, in_gpm(unit.siphon.value_or(a.siphon)));
        }
    }
    return tanks;
}

double setup_at(const Assumptions& a, SourceKind kind) {
    switch (kind) {
        case SourceKind::hydrant:
            return in_minutes(a.setup_hydrant);
        case SourceKind::draft_site:
            return in_minutes(a.setup_open_bank);
        default:
            return in_minutes(a.setup_dry_hydrant);
    }
}

Tanker tanker_of(const Town& town, Hour hour, const There& there, bool all_must_back,
                 const DumpSiteCandidate& site, const WaterSource& source) {
    const Assumptions& a = town.district.assumptions;
    const Unit& unit = at(town.district.units, there.unit);
    const Legs legs = legs_between(town, hour, *there.profile, site, source);
    const bool backs = unit.backs_to_offload || all_must_back;
    Tanker tanker;
    tanker.delivered = in_gallons(unit.tank) * a.delivered_fraction;
    tanker.refilled = in_gallons(unit.tank) * a.refill_fraction;
    tanker.fill_limit = in_gpm(unit.fill_limit.value_or(a.fill_limit));
    tanker.offload = in_gpm(unit.offload.value_or(a.offload));
    tanker.fill_before = in_minutes(a.fill_before) +
                         (must_back_to_fill(town, hour, source) ? in_minutes(a.backing) : 0.0);
    tanker.fill_after = in_minutes(a.fill_after);
    tanker.offload_before = in_minutes(a.offload_before) + (backs ? in_minutes(a.backing) : 0.0);
    tanker.offload_after = in_minutes(a.offload_after);
    tanker.arrives = there.at;
    tanker.can_nurse = unit.pump.has_value();
    tanker.nurse_rate = std::min(in_gpm(a.nurse), in_gpm(unit.pump.value_or(gpm(0))));
    tanker.empty_leg = legs.empty == never ? no_limit : static_cast<double>(legs.empty) / 600.0;
    tanker.loaded_leg = legs.loaded == never ? no_limit : static_cast<double>(legs.loaded) / 600.0;
    return tanker;
}

bool needs_engine(const WaterSource& source) {
    return source.reach == Reach::engine &&
           !source.fills_without_engine.value_or(source.kind == SourceKind::hydrant);
}

struct FillEngine {
    double ready = no_limit;
    double pump = 0.0;  // rated
};

// The first engine that is left over and can have the fill site running.
FillEngine fill_engine(const Town& town, Hour hour, const std::vector<There>& engines,
                       const WaterSource& source) {
    const Assumptions& a = town.district.assumptions;
    const double setup = setup_at(a, source.kind) + extra_setup(town, hour);
    FillEngine first;
    for (std::size_t i = 2; i < engines.size(); ++i) {
        const double ready = engines[i].left + drive(town, hour, engines[i], source.place) + setup;
        if (ready < first.ready) {
            const Unit& unit = at(town.district.units, engines[i].unit);
            first = {ready, in_gpm(unit.pump.value_or(a.engine_pump))};
        }
    }
    return first;
}

// When the fill site runs: by that engine, or, where none is needed, by the first tanker that comes
// to fill.
double fill_site_ready(const Town& town, Hour hour, double engine_ready,
                       const std::vector<Tanker>& tankers, const WaterSource& source) {
    const double setup = setup_at(town.district.assumptions, source.kind) + extra_setup(town, hour);
    double ready = engine_ready;
    if (!needs_engine(source)) {
        for (const Tanker& tanker : tankers) {
            ready = std::min(ready, tanker.arrives + tanker.offload_before +
                                        tanker.delivered / tanker.offload + tanker.offload_after +
                                        tanker.empty_leg + setup);
        }
    }
    return ready;
}

// C of C (Q/100)^2 (L/100 ft): "3-8 Calculating Friction Loss In Hose Lays" (training record).
struct HoseKind {
    Length HoseLoad::* length;
    double c;
};
constexpr HoseKind hoses[]{{&HoseLoad::hose_5in, 0.08},
                           {&HoseLoad::hose_4in, 0.2},
                           {&HoseLoad::hose_3in, 0.8},
                           {&HoseLoad::hose_2_5in, 2.0}};

double hose_on(const Town& town, const There& engine, const HoseKind& hose) {
    const HoseLoad blank{.hose_2_5in = town.district.assumptions.engine_hose_2_5in,
                         .hose_3in = {},
                         .hose_4in = {},
                         .hose_5in = {}};
    return in_metres(at(town.district.units, engine.unit).hose.value_or(blank).*hose.length);
}

// The largest hose of which attack and drafting engine together carry enough; on level ground.
double hose_carries(const Town& town, const std::vector<There>& engines, double metres_to_lay) {
    const Assumptions& a = town.district.assumptions;
    for (const HoseKind& hose : hoses) {
        const double there = hose_on(town, engines[0], hose) + hose_on(town, engines[1], hose);
        if (there >= metres_to_lay) {
            const double hundreds_of_feet = in_feet(metres(metres_to_lay)) / 100.0;
            return 100.0 * std::sqrt((a.supply_line_pressure_psi - a.residual_pressure_psi) /
                                     (hose.c * hundreds_of_feet));
        }
    }
    return 0.0;
}

// When a line of that hose lies: laid by the first engine alone, where it carries enough.
double line_lies(const Town& town, const std::vector<There>& engines, double metres_to_lay) {
    const double work =
        in_minutes(town.district.assumptions.lay_1000ft) * in_feet(metres(metres_to_lay)) / 1000.0;
    for (const HoseKind& hose : hoses) {
        const double first = hose_on(town, engines[0], hose);
        if (first + hose_on(town, engines[1], hose) >= metres_to_lay) {
            return engines[first >= metres_to_lay ? 0 : 1].at + work;
        }
    }
    return 0.0;
}

struct Crews {
    std::vector<There> engines, haulers;
};

Crews crews_at(const Town& town, Hour hour, std::size_t parcel, double first_arrival, Point place) {
    return {who_is_there(town, hour, parcel, UnitKind::engine, first_arrival, place),
            who_is_there(town, hour, parcel, UnitKind::tanker, first_arrival, place)};
}

// Beside the tanks; the officer's places and what lies off the road are not judged by width.
bool lane_is_left(const District& district, const DumpSiteCandidate& site) {
    if (site.officers_place) {
        const DumpSitePlace& place = district.dump_site_places[*site.officers_place];
        if (place.portable_tanks.has_value() || place.lane.has_value()) {
            return true;
        }
    }
    const Assumptions& a = district.assumptions;
    const auto width = at(district.roads, site.road).width;
    return !site.straight || (width && *width >= a.portable_tank_width + a.free_lane);
}

// By the officer's word, else tank by tank behind the engine, with a lane beside them.
int fit_in_line(const District& district, const DumpSiteCandidate& site) {
    const Assumptions& a = district.assumptions;
    if (site.officers_place &&
        district.dump_site_places[*site.officers_place].portable_tanks.has_value()) {
        return *district.dump_site_places[*site.officers_place].portable_tanks;
    }
    const auto width = at(district.roads, site.road).width;
    if (!width || !site.straight) {
        return a.portable_tanks_where_unknown;
    }
    int tanks = 1;
    Length taken = a.draft_engine_length + a.portable_tank_length * 2.0;
    while (*width >= a.portable_tank_width + a.free_lane && taken <= *site.straight + feet(1e-5) &&
           tanks < 100) {
        ++tanks;
        taken += a.portable_tank_length;
    }
    return tanks;
}

// The tanks at a dump site, of attack engine, draft engine and tankers.
Tanks tanks_at(const Town& town, Hour hour, const Crews& crews, double start,
               const DumpSiteCandidate& site) {
    const Assumptions& a = town.district.assumptions;
    const int room = std::min(a.most_portable_tanks, fit_in_line(town.district, site));
    std::vector<There> carriers(crews.engines.begin(), crews.engines.begin() + 2);
    carriers.insert(carriers.end(), crews.haulers.begin(), crews.haulers.end());
    return tanks_of(town, hour, by_arrival(carriers), start, room,
                    a.portable_tank_slope_loss * site.grade_pct.value_or(0.0));
}

// The most that the first `used` tanks give: with every other one full and no load coming, the
// draft tank must last until all their water has been moved up, one tank a move.
double moved_up(const Tanks& tanks, std::size_t used) {
    double holds = 0.0;
    double fails = 1e6;
    for (int halves = 0; halves < 60; ++halves) {
        const double flow = (holds + fails) / 2.0;
        double left = tanks.usable[0];
        for (std::size_t tank = 1; tank < used; ++tank) {
            const double away = flow * static_cast<double>(tank) / tanks.siphon - 1.0;
            left -= std::max(0.0, away) * tanks.usable[tank];
        }
        (left >= 0.0 ? holds : fails) = flow;
    }
    return holds;
}

// Those beside the drivers at a minute, by a count of all who have come.
int people_at(const Town& town, Hour hour, const Crews& crews, double minute) {
    int people = 0;
    for (const auto* list : {&crews.engines, &crews.haulers}) {
        for (const There& unit : *list) {
            if (unit.at <= minute) {
                people += crew_on(town, hour, unit.unit);
                people -= list == &crews.haulers ? town.district.assumptions.crew_tanker : 0;
            }
        }
    }
    return people;
}

// When there are people for so many slots and one fill site, and stay; infinity: never.
double slots_from(const Town& town, Hour hour, const Crews& crews, int slots) {
    const Assumptions& a = town.district.assumptions;
    const int jobs = a.crew_attack + a.crew_dump_site + a.crew_fill_site + a.crew_traffic +
                     a.crew_water_supply + a.crew_offload_slot * (slots - 1);
    std::vector<double> minutes;
    for (const auto* list : {&crews.engines, &crews.haulers}) {
        for (const There& unit : *list) {
            minutes.push_back(unit.at);
        }
    }
    std::ranges::sort(minutes, std::greater<>{});
    double from = no_limit;
    for (const double minute : minutes) {
        if (people_at(town, hour, crews, minute) < jobs) {
            break;
        }
        from = minute;
    }
    return from;
}

// The dump site's half of the incident, with so many of its tanks.
Incident at_dump_site(const Town& town, Hour hour, const Crews& crews, double first_arrival,
                      const Tanks& tanks, std::size_t used) {
    const Assumptions& a = town.district.assumptions;
    const Unit& attack = at(town.district.units, crews.engines[0].unit);
    Incident incident;
    incident.slots = 1;
    for (int slots = 2; slots <= a.offload_slots; ++slots) {
        const double from = slots_from(town, hour, crews, slots);
        if (from < no_limit) {
            ++incident.slots;
            incident.further_slots_from.push_back(from);
        }
    }
    incident.storage = std::accumulate(
        tanks.usable.begin(), tanks.usable.begin() + static_cast<std::ptrdiff_t>(used), 0.0);
    incident.engine_tank = in_gallons(attack.tank > gallons(0) ? attack.tank : a.engine_tank);
    incident.engine_arrives = first_arrival;
    incident.tanks_ready = tanks.up;
    incident.draft_ready = std::max(tanks.up, crews.engines[1].at) + in_minutes(a.setup_draft) +
                           extra_setup(town, hour);
    incident.nurse_hookup = in_minutes(a.nurse_hookup);
    incident.attack_flow = in_gpm(a.initial_attack);
    incident.attack_from = first_arrival + in_minutes(a.initial_attack_after_arrival);
    return incident;
}

// Those that have a way to the source and back.
std::vector<Tanker> tankers_of(const Town& town, Hour hour, bool all_must_back, const Crews& crews,
                               const DumpSiteCandidate& site, const WaterSource& source) {
    std::vector<Tanker> tankers;
    for (const There& hauler : crews.haulers) {
        const Tanker tanker = tanker_of(town, hour, hauler, all_must_back, site, source);
        if (tanker.empty_leg < no_limit && tanker.loaded_leg < no_limit) {
            tankers.push_back(tanker);
        }
    }
    return tankers;
}

FillSite fill_site_of(const Town& town, Hour hour, const Crews& crews,
                      const std::vector<Tanker>& tankers, const WaterSource& source) {
    FillSite site;
    site.places = static_cast<std::size_t>(std::max(1, source.places.value_or(1)));
    const Giving given = giving(town.district, source);
    const FillEngine engine = fill_engine(town, hour, crews.engines, source);
    site.pump = needs_engine(source) ? std::min(given.into_any_pump, engine.pump * given.pump_share)
                                     : given.into_any_pump;
    site.ready = fill_site_ready(town, hour, engine.ready, tankers, source);
    site.usable = given.gallons < 1e29 ? given.gallons : no_limit;
    site.inflow = in_gpm(source.inflow.value_or(gpm(0)));
    return site;
}

double rating(const Town& town, const There& engine) {
    return in_gpm(
        at(town.district.units, engine.unit).pump.value_or(town.district.assumptions.engine_pump));
}

// What one line or two of the same hose carry on level ground through stretches between so many
// engines, each for which the engines' hose suffices; and the metres of hose laid.
struct Lines {
    double carried = 0.0;
    double laid = 0.0;
};
std::vector<Lines> all_lines(const Town& town, const std::vector<There>& engines, double lay) {
    const Assumptions& a = town.district.assumptions;
    const HoseLoad blank{
        .hose_2_5in = a.engine_hose_2_5in, .hose_3in = {}, .hose_4in = {}, .hose_5in = {}};
    const double stretch = in_feet(metres(lay)) / static_cast<double>(engines.size() - 1);
    std::vector<Lines> all;
    for (const HoseKind& kind : hoses) {
        double there = 0.0;
        for (const There& engine : engines) {
            there +=
                in_metres(at(town.district.units, engine.unit).hose.value_or(blank).*kind.length);
        }
        for (int lines = 1; lines <= 2; ++lines) {
            const double carried =
                100.0 * lines *
                std::sqrt((a.supply_line_pressure_psi - a.residual_pressure_psi) /
                          (kind.c * stretch / 100.0));
            if (there >= lay * lines) {
                all.push_back({carried, lay * lines});
            }
        }
    }
    return all;
}

// All but the first engine pump, at the pressure of supply lines: 100 % of the rating at 150 psi,
// 70 % at 200, the rating points of fire pumps.
double pumped_on(const Town& town, const std::vector<There>& engines) {
    double least = no_limit;
    for (std::size_t i = 1; i < engines.size(); ++i) {
        least = std::min(least, rating(town, engines[i]));
    }
    return least *
           (1.0 - 0.3 * (town.district.assumptions.supply_line_pressure_psi - 150.0) / 50.0);
}

}  // namespace

WayIn way_in(const Town& town, Hour hour, std::size_t parcel, const DumpSiteCandidate& site) {
    return {must_back(town, hour, parcel, site) || !lane_is_left(town.district, site),
            single_file_seconds(town, hour, parcel, site) / 60.0};
}

std::optional<Shuttle> shuttle_at(const Town& town, Hour hour, std::size_t parcel,
                                  double first_arrival, const DumpSiteCandidate& site,
                                  const WayIn& in, const WaterSource& source,
                                  std::size_t tanks_used) {
    const Assumptions& a = town.district.assumptions;
    const Crews crews = crews_at(town, hour, parcel, first_arrival, site.place);
    const auto hose = hose_to(town, parcel, site);
    if (crews.engines.size() < 2 || !hose) {
        return std::nullopt;
    }
    Shuttle shuttle;
    shuttle.start = first_arrival + in_minutes(a.start_after_arrival);
    const Tanks tanks = tanks_at(town, hour, crews, shuttle.start, site);
    if (tanks_used > tanks.usable.size() || (tanks_used > 1 && tanks.siphon == 0.0)) {
        return std::nullopt;
    }
    shuttle.incident = at_dump_site(town, hour, crews, first_arrival, tanks, tanks_used);
    shuttle.incident.draft_ready =
        std::max(shuttle.incident.draft_ready, line_lies(town, crews.engines, *hose));
    shuttle.incident.single_file = in.single_file;
    if (shuttle.incident.single_file > 0.0) {
        shuttle.incident.slots = 1;
        shuttle.incident.further_slots_from.clear();
    }
    shuttle.incident.tankers = tankers_of(town, hour, in.must_back, crews, site, source);
    shuttle.places = static_cast<std::size_t>(std::max(1, source.places.value_or(1)));
    shuttle.incident.fill_sites = {
        fill_site_of(town, hour, crews, shuttle.incident.tankers, source)};
    if (shuttle.incident.tankers.empty() || shuttle.incident.fill_sites[0].ready == no_limit) {
        return std::nullopt;
    }
    const Unit& draft = at(town.district.units, crews.engines[1].unit);
    const double pumped = std::min(in_gpm(a.strainer), in_gpm(draft.pump.value_or(a.engine_pump)));
    const double drawn =
        tanks_used == 1 ? pumped
                        : std::min(pumped - in_gpm(a.siphon_drive), moved_up(tanks, tanks_used));
    shuttle.most = std::min(std::max(0.0, drawn), hose_carries(town, crews.engines, *hose));
    return shuttle;
}

std::vector<HoseWay> hose_ways(const Town& town, Hour hour, std::size_t parcel,
                               double first_arrival, const WaterSource& source, double duration,
                               double slower) {
    const Assumptions& a = town.district.assumptions;
    const auto lay = hose_from(town, parcel, source);
    std::vector<HoseWay> ways;
    if (!lay || source.reach == Reach::portable_pump) {
        return ways;
    }
    const Giving given = giving(town.district, source);
    const std::vector<There> engines =
        who_is_there(town, hour, parcel, UnitKind::engine, first_arrival, source.place);
    for (std::size_t count = 2; count <= engines.size(); ++count) {
        const std::vector<There> used(engines.begin(),
                                      engines.begin() + static_cast<std::ptrdiff_t>(count));
        const double drawn =
            needs_engine(source)
                ? std::min(given.into_any_pump, rating(town, used[1]) * given.pump_share)
                : given.into_any_pump;
        const double lasting = given.gallons / duration + in_gpm(source.inflow.value_or(gpm(0)));
        for (const auto& [carried, laid] : all_lines(town, used, *lay)) {
            const double work = setup_at(a, source.kind) + extra_setup(town, hour) +
                                in_minutes(a.lay_1000ft) * in_feet(metres(laid)) / 1000.0;
            ways.push_back({count, std::min({carried, pumped_on(town, used), drawn, lasting}),
                            used.back().at + work, used.back().at + work * slower});
        }
    }
    return ways;
}

Incident with_slow_stages(const Incident& incident, double factor) {
    Incident slow = incident;
    slow.single_file *= factor;
    slow.nurse_hookup *= factor;
    for (FillSite& site : slow.fill_sites) {
        site.pump /= factor;
    }
    for (Tanker& tanker : slow.tankers) {
        for (double* stage : {&tanker.fill_before, &tanker.fill_after, &tanker.offload_before,
                              &tanker.offload_after, &tanker.empty_leg, &tanker.loaded_leg}) {
            *stage *= factor;
        }
        tanker.fill_limit /= factor;
        tanker.offload /= factor;
    }
    return slow;
}

}  // namespace farwater::slow
