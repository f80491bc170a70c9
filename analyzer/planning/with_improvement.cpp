#include "analyzer/planning/with_improvement.h"

#include <algorithm>

namespace farwater::planning {
namespace {

Unit new_unit(const District& district, const MoreUnits& more) {
    Unit unit;
    unit.backs_to_offload = true;
    if (more.like.valid()) {
        unit = at(district.units, more.like);
    } else if (more.kind == UnitKind::engine) {
        unit.tank = district.assumptions.engine_tank;
        unit.tank_known = false;
    }
    unit.kind = more.kind;
    unit.station = more.station;
    unit.aid = at(district.stations, more.station).aid;
    unit.tank = more.tank.value_or(unit.tank);
    unit.tank_known = unit.tank_known || more.tank;
    unit.pump = more.pump ? more.pump : unit.pump;
    unit.fill_limit = more.fill_limit ? more.fill_limit : unit.fill_limit;
    unit.offload = more.offload ? more.offload : unit.offload;
    unit.tested_on.reset();
    return unit;
}

std::string id_of_new(const District& district, const MoreUnits& more) {
    return "new " + std::string(word(more.kind)) + " " + at(district.stations, more.station).id +
           "-" + std::to_string(district.units.size() + 1);
}

// On each zone's first alarm for which a unit of the kind goes from the station.
std::vector<ResponseRule> rules_of_station(const District& district, const MoreUnits& more) {
    std::vector<ResponseRule> rules;
    for (const ResponseRule& rule : district.response_rules) {
        const Unit& unit = at(district.units, rule.unit);
        if (unit.kind != more.kind || unit.station != more.station) {
            continue;
        }
        const auto known = std::ranges::find(rules, rule.zone, &ResponseRule::zone);
        if (known == rules.end()) {
            rules.push_back(rule);
        } else {
            known->alarm = std::min(known->alarm, rule.alarm);
        }
    }
    return rules;
}

std::vector<ResponseRule> rules_of_unit(const District& district, UnitIndex unit) {
    std::vector<ResponseRule> rules = district.response_rules;
    std::erase_if(rules, [&](const ResponseRule& rule) { return rule.unit != unit; });
    return rules;
}

void improve(District& district, const MoreUnits& more) {
    const Unit unit = new_unit(district, more);
    const std::vector<ResponseRule> rules =
        more.like.valid() ? rules_of_unit(district, more.like) : rules_of_station(district, more);
    std::vector<Staffing> shifts = district.staffing;
    std::erase_if(shifts, [&](const Staffing& shift) {
        return !shift.unit.valid() || shift.unit != more.like;
    });
    for (int i = 0; i < more.count; ++i) {
        const UnitIndex index(district.units.size());
        district.units.push_back(unit);
        district.units.back().id = id_of_new(district, more);
        for (ResponseRule rule : rules) {
            rule.unit = index;
            district.response_rules.push_back(std::move(rule));
        }
        for (Staffing shift : shifts) {
            shift.unit = index;
            district.staffing.push_back(shift);
        }
    }
}

void improve(District& district, const MorePortableTanks& more) {
    Unit& unit = at(district.units, more.unit);
    unit.portable_tank += more.each * static_cast<double>(more.count);
    unit.portable_tanks += more.count;
}

void improve(District& district, const MoreSiphons& more) {
    at(district.units, more.unit).jet_siphons += more.count;
}

void improve(District& district, const MoreHose& more) {
    Unit& unit = at(district.units, more.unit);
    if (!unit.hose) {
        unit.hose = HoseLoad{};
        unit.hose->hose_2_5in = district.assumptions.engine_hose_2_5in;
    }
    *unit.hose.*more.size += more.length;
}

void improve(District& district, const FasterOffload& faster) {
    Unit& unit = at(district.units, faster.unit);
    unit.offload = faster.offload;
    unit.backs_to_offload = faster.backs.value_or(unit.backs_to_offload);
    unit.tested_on.reset();
}

// The aid of a unit is the farther of its own and its station's, so the station's goes to those
// that stay as they are.
void make_automatic(District& district, UnitIndex index) {
    Station& station = at(district.stations, at(district.units, index).station);
    for (Unit& unit : district.units) {
        if (unit.station == at(district.units, index).station) {
            unit.aid = aid_of(district, unit);
        }
    }
    station.aid = std::min(station.aid, Aid::automatic);
    at(district.units, index).aid = Aid::automatic;
    for (ResponseRule& rule : district.response_rules) {
        if (rule.unit == index) {
            rule.alarm = 1;
        }
    }
}

void improve(District& district, const AutomaticAid& aid) {
    for (const UnitIndex unit : aid.units) {
        make_automatic(district, unit);
    }
}

void improve(District& district, const SourceInWinter& winter) {
    WaterSource& source = at(district.sources, winter.source);
    source.frost_proof = true;
    source.open_months = MonthSet::all();
    source.all_weather = true;
}

void improve(District& district, const RoadsKeptOpen& open) {
    for (const RoadIndex index : open.roads) {
        Road& road = at(district.roads, index);
        road.maintained = MonthSet::all();
        if (road.access == RoadAccess::unmaintained) {
            road.access = RoadAccess::open;
        }
    }
}

void improve(District& district, const PostingLifted& lifted) {
    for (const RoadIndex road : lifted.roads) {
        at(district.roads, road).weight_limit = lifted.limit;
    }
}

Staffing& shift_of(District& district, UnitIndex unit, PeriodIndex period) {
    // The last row that says something goes before earlier ones.
    for (auto row = district.staffing.rbegin(); row != district.staffing.rend(); ++row) {
        if (row->unit.valid() && row->unit == unit && row->period == period) {
            return *row;
        }
    }
    district.staffing.push_back({.unit = unit, .station = {}, .period = period});
    return district.staffing.back();
}

void improve(District& district, const MorePeople& people) {
    for (const UnitIndex unit : people.units) {
        Staffing& shift = shift_of(district, unit, people.period);
        shift.crew = people.crew ? people.crew : shift.crew;
        shift.turnout = people.turnout ? people.turnout : shift.turnout;
    }
}

void improve(District& district, const NewSource& added) {
    district.sources.push_back(added.source);
    ++district.what_if_sources;
}

}  // namespace

District with_improvement(const District& district, const Improvement& improvement) {
    District improved = district;
    std::visit([&improved](const auto& thing) { improve(improved, thing); }, improvement.thing);
    return improved;
}

}  // namespace farwater::planning
