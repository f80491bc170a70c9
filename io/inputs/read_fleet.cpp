#include "io/inputs/read_fleet.h"

#include <algorithm>

#include <fmt/format.h>

#include "io/records/layer_records.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/refer.h"
#include "io/records/unique_ids.h"

namespace farwater::io {
namespace {

// None: no hose is listed at all, which is not the same as none carried.
std::optional<HoseLoad> hose_of(Record& record) {
    const std::optional<Length> small = length_field(record, "hose_2_5in_ft");
    const std::optional<Length> three = length_field(record, "hose_3in_ft");
    const std::optional<Length> four = length_field(record, "hose_4in_ft");
    const std::optional<Length> five = length_field(record, "hose_5in_ft");
    if (!small && !three && !four && !five) {
        return std::nullopt;
    }
    return HoseLoad{small.value_or(Length()), three.value_or(Length()), four.value_or(Length()),
                    five.value_or(Length())};
}

void read_portable_tanks(Record& record, Unit& unit) {
    const std::optional<Volume> gallons = volume_field(record, "portable_tank_gal");
    const std::optional<int> count = record.whole("portable_tanks");
    if (!gallons && count.value_or(0) > 0) {
        record.report(ProblemId::portable_tank_unknown, "portable_tank_gal", {});
    }
    unit.portable_tank = gallons.value_or(Volume());
    unit.portable_tank_known = gallons.has_value();
    unit.portable_tanks = in_gallons(unit.portable_tank) > 0.0 ? count.value_or(1) : 0;
}

void read_pumping(Record& record, Unit& unit) {
    unit.pump = flow_field(record, "pump_gpm");
    unit.fill_limit = flow_field(record, "fill_limit_gpm");
    unit.offload = flow_field(record, "offload_gpm");
    unit.tested_on = record.date("tested_on");
    unit.hose = hose_of(record);
    unit.jet_siphons = record.whole("jet_siphons").value_or(0);
    unit.siphon = flow_field(record, "siphon_gpm");
    unit.low_level_strainers = record.whole("low_level_strainers").value_or(0);
    unit.hard_suction = length_field(record, "hard_suction_ft");
    unit.backs_to_offload = record.yes_no("backs_to_offload").value_or(true);
    read_portable_tanks(record, unit);
}

// No truck weighs less with its tank full than empty and its water together, but for a tenth of the
// water: scales and tanks are off by so much. A weight that is too small would take it over a weak
// bridge.
void read_weights(Record& record, Unit& unit) {
    unit.loaded = weight_field(record, "loaded_lb");
    unit.empty = weight_field(record, "empty_lb");
    constexpr Weight lightest_truck = pounds(3000);
    const double gallons = unit.tank_known ? in_gallons(unit.tank) : 0.0;
    const Weight least = unit.empty.value_or(lightest_truck) + water_per_gallon * (0.9 * gallons);
    if (unit.loaded && *unit.loaded < least) {
        record.report(ProblemId::number_out_of_range, "loaded_lb",
                      fmt::format("{:.0f} lb is less than the empty truck and its water weigh, "
                                  "{:.0f} lb at least",
                                  in_pounds(*unit.loaded), in_pounds(least)));
        unit.loaded.reset();
    }
}

void read_chassis(Record& record, Unit& unit) {
    unit.crew = record.whole("crew");
    unit.min_crew = record.whole("min_crew");
    unit.width = length_field(record, "width_ft");
    unit.height = length_field(record, "height_ft");
    unit.top_speed = speed_field(record, "top_speed_mph");
    unit.power = power_field(record, "power_hp");
}

bool read_kind(Record& record, Unit& unit) {
    const std::string kind = record.word_text("kind");
    const std::optional<UnitKind> known = parse_word<UnitKind>(kind);
    if (!known) {
        record.report(ProblemId::unit_kind_unknown, "kind", "\"" + kind + "\"");
        return false;
    }
    unit.kind = *known;
    return true;
}

bool read_station(Record& record, const std::vector<Station>& stations, Unit& unit) {
    const std::string id = record.text("station_id");
    unit.station = find_in<StationIndex>(stations, id, id_of);
    if (!unit.station.valid()) {
        record.report(ProblemId::unit_station_unknown, "station_id", "\"" + id + "\"");
        return false;
    }
    unit.aid = record.word("aid", Aid::mutual).value_or(at(stations, unit.station).aid);
    return true;
}

// Nothing on wheels that carries less is a tanker. Common practice, no source.
constexpr Volume smallest_tanker = gallons(100);

bool read_tank(Record& record, const Assumptions& assumptions, Unit& unit) {
    const std::optional<Volume> tank = volume_field(record, "tank_gal");
    if (unit.kind == UnitKind::tanker && tank.value_or(Volume()) < smallest_tanker) {
        const bool nothing = in_gallons(tank.value_or(Volume())) <= 0.0;
        record.report(ProblemId::unit_tank_unknown, "tank_gal",
                      nothing ? std::string()
                              : fmt::format("{:g} gal is no tanker's; are these thousands?",
                                            in_gallons(*tank)));
        return false;
    }
    unit.tank = tank.value_or(Volume());
    unit.tank_known = tank.has_value();
    if (unit.kind == UnitKind::engine && !tank) {
        unit.tank = assumptions.engine_tank;
        record.report(ProblemId::engine_tank_assumed, "tank_gal",
                      fmt::format("{:.0f} gal", in_gallons(unit.tank)));
    }
    return true;
}

}  // namespace

LayerRows<Unit> read_apparatus(const LayerSource& source, const std::vector<Station>& stations,
                               const Assumptions& assumptions, const Work& work) {
    IdsOnce ids;
    LayerRows<Unit> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        Unit unit;
        const std::optional<std::string> id = ids.take(record, "unit_id");
        if (!id || !read_kind(record, unit) || !read_station(record, stations, unit) ||
            !read_tank(record, assumptions, unit)) {
            return Taken::no;
        }
        ids.used(*id);
        unit.id = *id;
        read_pumping(record, unit);
        read_chassis(record, unit);
        read_weights(record, unit);
        result.rows.push_back(std::move(unit));
        return Taken::yes;
    });
    return result;
}

LayerRows<ResponseRule> read_response_zones(const LayerSource& source,
                                            const std::vector<Unit>& units, const Work& work) {
    LayerRows<ResponseRule> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        ResponseRule rule;
        rule.zone = record.text("zone");
        const std::optional<int> alarm = record.whole("alarm");
        rule.unit = refer<UnitIndex>(record, "unit_id", units, id_of, ProblemId::unit_unknown);
        for (const std::string_view field : {"zone", "alarm", "unit_id"}) {
            if (record.text(field).empty()) {
                record.report(ProblemId::value_missing, field, {});
            }
        }
        if (!record.problems().empty()) {
            return Taken::no;
        }
        rule.alarm = *alarm;
        result.rows.push_back(std::move(rule));
        return Taken::yes;
    });
    return result;
}

}  // namespace farwater::io
