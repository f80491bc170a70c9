// Blanks on which a unit comes, or comes as soon as it does.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/supply/roster.h"

namespace farwater::supply {

// It rolls with whoever is there: neither the staffing of the period nor the apparatus list says
// its crew. O(staffing rows).
inline bool crew_unsaid(const District& district, UnitIndex unit, PeriodIndex period) {
    return !crew_of(district, unit, period).has_value();
}

// A neighbour's station counts as standing where it is drawn, with no drive to there. O(1).
inline bool gate_unsaid(const Station& station) {
    return station.aid != Aid::own && !station.to_gate;
}

// What an answer rests on that needs the unit is then assumed.
inline bool comes_on_a_blank(const District& district, UnitIndex unit, PeriodIndex period) {
    const StationIndex station = at(district.units, unit).station;
    return crew_unsaid(district, unit, period) ||
           (station.valid() && gate_unsaid(at(district.stations, station)));
}

}  // namespace farwater::supply
