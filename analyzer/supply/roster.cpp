#include "analyzer/supply/roster.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "analyzer/district/sorted_once.h"

namespace farwater::supply {
namespace {

struct Shift {
    std::optional<int> crew;
    std::optional<Duration> turnout;
};

Shift overridden(const Shift& shift, const Shift& by) {
    return {.crew = by.crew ? by.crew : shift.crew,
            .turnout = by.turnout ? by.turnout : shift.turnout};
}

// Unit rows override station rows, whatever their order in the table.
Shift shift_of(const District& district, UnitIndex unit, PeriodIndex period) {
    const StationIndex station = at(district.units, unit).station;
    Shift by_station;
    Shift by_unit;
    for (const Staffing& row : district.staffing) {
        if (row.period == period && row.unit.valid() && row.unit == unit) {
            by_unit = overridden(by_unit, {row.crew, row.turnout});
        }
        if (row.period == period && !row.unit.valid() && row.station == station) {
            by_station = overridden(by_station, {row.crew, row.turnout});
        }
    }
    return overridden(by_station, by_unit);
}

std::optional<int> crew_in(const Unit& unit, const Shift& shift) {
    return shift.crew ? shift.crew : unit.crew;
}

bool stays_in_quarters(const Unit& unit, const Shift& shift) {
    const std::optional<int> crew = crew_in(unit, shift);
    return crew && *crew < unit.min_crew.value_or(1);
}

Duration turnout_by(const District& district, const Station& station, const Period& period,
                    const Shift& shift) {
    if (shift.turnout) {
        return *shift.turnout;
    }
    return station.staffed
               ? period.turnout_staffed.value_or(district.assumptions.turnout_staffed)
               : period.turnout_volunteer.value_or(district.assumptions.turnout_volunteer);
}

// The alarm on which a unit goes to a zone: none = not at all.
std::optional<int> alarm_of(const District& district, UnitIndex unit, std::string_view zone,
                            bool zone_has_rules) {
    if (!zone_has_rules) {
        return aid_of(district, at(district.units, unit)) == Aid::mutual ? 2 : 1;
    }
    std::optional<int> alarm;
    for (const ResponseRule& rule : district.response_rules) {
        if (rule.zone == zone && rule.unit == unit) {
            alarm = std::min(alarm.value_or(rule.alarm), rule.alarm);
        }
    }
    return alarm;
}

}  // namespace

std::vector<Responder> roster(const District& district, PeriodIndex period, std::string_view zone) {
    const auto& rules = district.response_rules;
    const bool zone_has_rules =
        std::ranges::any_of(rules, [&](const ResponseRule& rule) { return rule.zone == zone; });
    std::vector<Responder> responders;
    for (std::size_t i = 0; i < district.units.size(); ++i) {
        const UnitIndex index(i);
        const Unit& unit = district.units[i];
        const Shift shift = shift_of(district, index, period);
        const std::optional<int> alarm = alarm_of(district, index, zone, zone_has_rules);
        if (!alarm || stays_in_quarters(unit, shift)) {
            continue;
        }
        const bool on_request = *alarm > 1;
        const Duration turnout = turnout_of(district, index, period, on_request);
        responders.push_back({index,
                              on_request ? turnout : district.assumptions.alarm_handling + turnout,
                              on_request});
    }
    return responders;
}

Duration turnout_of(const District& district, UnitIndex unit, PeriodIndex period, bool on_request) {
    const Unit& of = at(district.units, unit);
    const Shift shift = shift_of(district, unit, period);
    return aid_of(district, of) == Aid::mutual && on_request && !shift.turnout
               ? district.assumptions.mutual_turnout
               : turnout_by(district, at(district.stations, of.station),
                            at(district.periods, period), shift);
}

std::optional<int> crew_of(const District& district, UnitIndex unit, PeriodIndex period) {
    return crew_in(at(district.units, unit), shift_of(district, unit, period));
}

std::vector<std::string> response_zones(const District& district) {
    std::vector<std::string> zones{""};
    for (const ResponseRule& rule : district.response_rules) {
        zones.push_back(rule.zone);
    }
    return sorted_once(std::move(zones));
}

}  // namespace farwater::supply
