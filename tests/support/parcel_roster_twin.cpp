// Who leaves which station when, for a parcel's fire: part of parcel_twin.h.
#include "tests/support/parcel_twin.h"

namespace farwater::slow {

namespace {

// What the staffing table says of a unit in a period; its own row goes before its station's.
template <class Member>
auto staffed(const District& district, PeriodIndex period, UnitIndex unit, Member member) {
    using Value = std::remove_cvref_t<decltype(district.staffing.front().*member)>;
    Value by_station{}, by_unit{};
    for (const Staffing& row : district.staffing) {
        if (row.period == period && row.*member) {
            if (row.unit == unit) {
                by_unit = row.*member;
            } else if (!row.unit.valid() && row.station == at(district.units, unit).station) {
                by_station = row.*member;
            }
        }
    }
    return by_unit ? by_unit : by_station;
}

bool too_few_people(const District& district, PeriodIndex period, UnitIndex index) {
    const Unit& unit = at(district.units, index);
    auto crew = staffed(district, period, index, &Staffing::crew);
    crew = crew ? crew : unit.crew;
    return crew && *crew < unit.min_crew.value_or(1);
}

// The first alarm at which a unit goes to a zone; 0 = it does not.
int alarm_for(const District& district, UnitIndex index, const std::string& zone) {
    int alarm = 0;
    bool rules = false;
    for (const ResponseRule& rule : district.response_rules) {
        rules = rules || rule.zone == zone;
        if (rule.zone == zone && rule.unit == index && (alarm == 0 || rule.alarm < alarm)) {
            alarm = rule.alarm;
        }
    }
    if (rules || zone.empty()) {
        return rules ? alarm
               : at(district.units, index).aid == Aid::mutual ||
                       at(district.stations, at(district.units, index).station).aid == Aid::mutual
                   ? 2
                   : 1;
    }
    return alarm_for(district, index, "");
}

Duration turnout(const District& district, PeriodIndex period, UnitIndex index, bool asked_for) {
    const Assumptions& a = district.assumptions;
    const Unit& unit = at(district.units, index);
    const Station& station = at(district.stations, unit.station);
    if (const auto own = staffed(district, period, index, &Staffing::turnout)) {
        return *own;
    }
    if (asked_for && (unit.aid == Aid::mutual || station.aid == Aid::mutual)) {
        return a.mutual_turnout;
    }
    const Period& when = at(district.periods, period);
    return station.staffed ? when.turnout_staffed.value_or(a.turnout_staffed)
                           : when.turnout_volunteer.value_or(a.turnout_volunteer);
}

}  // namespace

int crew_on(const Town& town, Hour hour, UnitIndex index) {
    const Unit& unit = at(town.district.units, index);
    const auto crew = staffed(town.district, hour.period, index, &Staffing::crew);
    return crew.value_or(unit.crew.value_or(unit.min_crew.value_or(1)));
}

std::vector<Coming> who_comes(const Town& town, Hour hour, const std::string& zone) {
    const District& district = town.district;
    std::vector<Coming> list;
    for (std::size_t i = 0; i < district.units.size(); ++i) {
        const UnitIndex unit(i);
        const int alarm = alarm_for(district, unit, zone);
        if (alarm == 0 || too_few_people(district, hour.period, unit)) {
            continue;
        }
        const Duration ready = turnout(district, hour.period, unit, alarm > 1);
        list.push_back(
            {unit, alarm > 1 ? ready : district.assumptions.alarm_handling + ready, alarm > 1});
    }
    return list;
}

}  // namespace farwater::slow
