#include "analyzer/supply/places/tanks_there.h"

#include <algorithm>

#include "analyzer/hydraulics/portable_tank.h"

namespace farwater::supply {
namespace {

// Of one of the tanks that a unit carries.
Volume usable_of(const Unit& unit, const DumpSiteCandidate& site, const Assumptions& assumptions) {
    return hydraulics::usable_of_portable_tank(
        unit.portable_tank / std::max(1, unit.portable_tanks), assumptions.portable_tank_depth,
        assumptions.portable_tank_heel,
        assumptions.portable_tank_slope_loss * site.grade_pct.value_or(0.0));
}

void set_up(TanksThere& there, const Situation& situation, std::span<const Arrival> carriers,
            const DumpSiteCandidate& site, Duration start) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Duration work = assumptions.setup_portable_tank +
                          at(situation.district.seasons, situation.trips.season).extra_setup;
    int room = there.room.tanks;
    for (const Arrival& carrier : carriers) {
        const Unit& unit = at(situation.district.units, carrier.unit);
        const Duration up = carrier.at_scene + work;
        const Volume usable = usable_of(unit, site, assumptions);
        if (usable <= gallons(0) || (!there.tanks.empty() && up > start)) {
            continue;
        }
        const int carried = std::max(1, unit.portable_tanks);
        const int placed = std::min(room, carried);
        if (placed > 0) {
            there.tanks.push_back({carrier.unit, placed, usable * placed, up});
            there.line.tanks.insert(there.line.tanks.end(), static_cast<std::size_t>(placed),
                                    usable);
        }
        there.line.left.insert(there.line.left.end(), static_cast<std::size_t>(carried - placed),
                               usable);
        room -= placed;
    }
    there.line.full = room <= 0;
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
    there.room = road_room(situation.district, site);
    set_up(there, situation, carriers, site, start);
    add_siphon(there, situation, carriers, start);
    there.line.used = tanks_in_reach(there.line);
    return there;
}

Duration first_up(std::span<const TanksSetUp> tanks) {
    return std::ranges::min_element(tanks, {}, &TanksSetUp::up)->up;
}

}  // namespace farwater::supply
