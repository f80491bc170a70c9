// Who comes, and when the wheels roll: staffing by period, response zones, automatic and mutual
// aid.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"

namespace farwater::supply {

struct Responder {
    UnitIndex unit;
    Duration rolls;  // since the alarm; on request: since the request
    bool on_request =
        false;  // mutual aid and later alarms: asked for after the first engine arrived
};

// The units that respond to a zone in a period, by unit index. A unit with fewer people than its
// least crew stays in quarters; an unknown crew counts as enough. Turnout: the unit's staffing row,
// else its station's, else the period's, else the assumption, staffed or volunteer. Zones without
// response rules: own units and automatic aid at the alarm, mutual aid on request.
std::vector<Responder> roster(const District& district, PeriodIndex period, std::string_view zone);

// Tones, or the request, to wheels rolling, as the roster takes it.
Duration turnout_of(const District& district, UnitIndex unit, PeriodIndex period, bool on_request);

// The crew of a unit in a period: its own staffing row, else its station's, else the apparatus
// list; none: nobody lists it.
std::optional<int> crew_of(const District& district, UnitIndex unit, PeriodIndex period);

// The zones that rules name, sorted; the first is "" (no zone).
std::vector<std::string> response_zones(const District& district);

}  // namespace farwater::supply
