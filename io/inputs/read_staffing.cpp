#include "io/inputs/read_staffing.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "io/records/layer_records.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/refer.h"

namespace farwater::io {
namespace {

// False: it names nobody who is known.
bool read_who(Record& record, const StaffedThings& things, Staffing& row) {
    row.unit = refer<UnitIndex>(record, "unit_id", things.units, id_of, ProblemId::unit_unknown);
    if (record.text("unit_id").empty()) {
        row.station = refer<StationIndex>(record, "station_id", things.stations, id_of,
                                          ProblemId::unit_station_unknown);
        if (record.text("station_id").empty()) {
            record.report(ProblemId::value_missing, "unit_id", {});
        }
    }
    return record.problems().empty();
}

PeriodIndex read_period(Record& record, const std::vector<Period>& periods) {
    const std::string name = record.text("period");
    const auto period = find_in<PeriodIndex>(periods, name, period_name);
    if (!period.valid()) {
        std::vector<std::string_view> names;
        for (const Period& known : periods) {
            names.emplace_back(known.name);
        }
        record.report(
            ProblemId::staffing_of_no_period, "period",
            name.empty() ? "blank" : fmt::format("\"{}\"{}", name, did_you_mean(name, names)));
    }
    return period;
}

// Either value's least helpful one: the smaller crew, the longer turnout.
void add_least(Staffing& least, const Staffing& row) {
    least.crew = row.crew && least.crew ? std::min(row.crew, least.crew)
                 : row.crew             ? row.crew
                                        : least.crew;
    least.turnout = std::max(row.turnout, least.turnout);
}

// Rows without a period, over the periods in which nothing else is said of a unit.
class LeastOfNoPeriod {
public:
    LeastOfNoPeriod(const StaffedThings& things, const Assumptions& assumptions,
                    const std::vector<Staffing>& rows, const std::vector<Staffing>& of_no_period)
        : things_(things), assumptions_(assumptions), rows_(rows), of_no_period_(of_no_period) {}

    std::vector<Staffing> spread() const {
        std::vector<Staffing> spread;
        for (std::size_t u = 0; u < things_.units.size() && !of_no_period_.empty(); ++u) {
            for (std::size_t p = 0; p < things_.periods.size(); ++p) {
                const Staffing row = row_of(UnitIndex(u), PeriodIndex(p));
                if (row.crew || row.turnout) {
                    spread.push_back(row);
                }
            }
        }
        return spread;
    }

private:
    Staffing row_of(UnitIndex unit, PeriodIndex period) const {
        Staffing row{.unit = unit, .station = {}, .period = period, .crew = {}, .turnout = {}};
        const Staffing own = told(rows_, unit, {}, period);
        const Staffing home = told(rows_, {}, at(things_.units, unit).station, period);
        const Staffing least_own = told(of_no_period_, unit, {}, {});
        const Staffing least_home = told(of_no_period_, {}, at(things_.units, unit).station, {});
        Staffing least = least_own;
        if (!home.crew) {
            add_least(least, {.crew = least_home.crew});
        }
        if (!home.turnout) {
            add_least(least, {.turnout = least_home.turnout});
        }
        const std::optional<int> crew = home.crew ? home.crew : at(things_.units, unit).crew;
        if (!own.crew && least.crew && (!crew || *least.crew < *crew)) {
            row.crew = least.crew;
        }
        if (!own.turnout && least.turnout &&
            *least.turnout > home.turnout.value_or(usual_turnout(unit, period))) {
            row.turnout = least.turnout;
        }
        return row;
    }

    // What rows say of exactly this unit or station and this period.
    static Staffing told(const std::vector<Staffing>& rows, UnitIndex unit, StationIndex station,
                         PeriodIndex period) {
        Staffing all;
        for (const Staffing& row : rows) {
            const bool of_these =
                unit.valid() ? row.unit == unit : !row.unit.valid() && row.station == station;
            if (of_these && row.period == period) {
                add_least(all, row);
            }
        }
        return all;
    }

    // Without a row of the staffing table, the longest that any alarm may take.
    Duration usual_turnout(UnitIndex index, PeriodIndex period) const {
        const Unit& unit = at(things_.units, index);
        const Period& of = at(things_.periods, period);
        const Station& home = at(things_.stations, unit.station);
        const Duration here = home.staffed
                                  ? of.turnout_staffed.value_or(assumptions_.turnout_staffed)
                                  : of.turnout_volunteer.value_or(assumptions_.turnout_volunteer);
        const bool mutual = std::max(unit.aid, home.aid) == Aid::mutual;
        return mutual ? std::max(here, assumptions_.mutual_turnout) : here;
    }

    const StaffedThings& things_;
    const Assumptions& assumptions_;
    const std::vector<Staffing>& rows_;
    const std::vector<Staffing>& of_no_period_;
};

}  // namespace

LayerRows<Staffing> read_staffing(const LayerSource& source, const StaffedThings& things,
                                  const Assumptions& assumptions, const Work& work) {
    LayerRows<Staffing> result;
    std::vector<Staffing> of_no_period;
    result.log = for_each_record(source, work, [&](Record& record) {
        Staffing row;
        if (!read_who(record, things, row)) {
            return Taken::no;
        }
        row.period = read_period(record, things.periods);
        row.crew = record.whole("crew");
        row.turnout = duration_field(record, "turnout_min");
        (row.period.valid() ? result.rows : of_no_period).push_back(row);
        return Taken::yes;
    });
    const std::vector<Staffing> spread =
        LeastOfNoPeriod(things, assumptions, result.rows, of_no_period).spread();
    result.rows.insert(result.rows.end(), spread.begin(), spread.end());
    return result;
}

}  // namespace farwater::io
