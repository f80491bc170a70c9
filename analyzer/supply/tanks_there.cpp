#include "analyzer/supply/tanks_there.h"

#include <algorithm>

#include "analyzer/hydraulics/portable_tank.h"

namespace farwater::supply {
namespace {

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

int room_for_tanks(const District& district, const DumpSiteCandidate& site) {
    const int most = district.assumptions.most_portable_tanks;
    return site.officers_place
               ? std::min(
                     most,
                     district.dump_site_places[*site.officers_place].portable_tanks.value_or(most))
               : most;
}

std::vector<TanksSetUp> set_up(const Situation& situation, std::span<const Arrival> carriers,
                               const DumpSiteCandidate& site, Duration start) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Duration work = assumptions.setup_portable_tank +
                          at(situation.district.seasons, situation.trips.season).extra_setup;
    int room = room_for_tanks(situation.district, site);
    std::vector<TanksSetUp> tanks;
    for (const Arrival& carrier : carriers) {
        const Unit& unit = at(situation.district.units, carrier.unit);
        const Duration up = carrier.at_scene + work;
        const int carried = unit.portable_tank > gallons(0) ? std::max(1, unit.portable_tanks) : 0;
        const int placed = std::min(room, carried);
        const Volume usable = usable_of(unit, placed, carried, site, assumptions);
        if (usable <= gallons(0) || (!tanks.empty() && up > start)) {
            continue;
        }
        tanks.push_back({carrier.unit, placed, usable, up});
        room -= placed;
    }
    return tanks;
}

void add_siphon(TanksThere& there, const Situation& situation, std::span<const Arrival> carriers,
                Duration by) {
    const Assumptions& assumptions = situation.district.assumptions;
    there.line.siphon = assumptions.siphon;
    there.line.drive_water = assumptions.siphon_drive;
    for (const Arrival& carrier : carriers) {
        const Unit& unit = at(situation.district.units, carrier.unit);
        if (unit.jet_siphons <= 0 || carrier.at_scene > by) {
            continue;
        }
        const Flow moves = unit.siphon.value_or(assumptions.siphon);
        if (there.line.siphons == 0 || moves > there.line.siphon) {
            there.line.siphon = moves;
            there.siphon_of = carrier.unit;
        }
        there.line.siphons = 1;
    }
}

}  // namespace

TanksThere tanks_there(const Situation& situation, std::span<const Arrival> carriers,
                       const DumpSiteCandidate& site, Duration start) {
    TanksThere there;
    there.tanks = set_up(situation, carriers, site, start);
    if (there.tanks.empty()) {
        return there;
    }
    for (const TanksSetUp& of_unit : there.tanks) {
        there.line.tanks.insert(there.line.tanks.end(), static_cast<std::size_t>(of_unit.tanks),
                                of_unit.usable / static_cast<double>(of_unit.tanks));
    }
    add_siphon(there, situation, carriers, start);
    there.line.used = tanks_in_reach(there.line);
    return there;
}

Duration first_up(std::span<const TanksSetUp> tanks) {
    return std::ranges::min_element(tanks, {}, &TanksSetUp::up)->up;
}

}  // namespace farwater::supply
