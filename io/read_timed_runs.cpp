#include "io/read_timed_runs.h"

#include <algorithm>

#include <fmt/format.h>

#include "io/error.h"
#include "io/records/layer_records.h"
#include "io/records/parse_clock.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"
#include "io/records/refer.h"
#include "io/records/unique_ids.h"

namespace farwater::io {
namespace {

// Two times of day that lie farther apart belong to two runs.
const Duration longest_turnout = minutes(120.0);
const Duration longest_drive = minutes(300.0);

std::optional<Duration> clock_field(Record& record, std::string_view field) {
    const std::optional<Duration> by_cell = record.time_of_day(field);
    const std::string text = by_cell ? std::string() : record.text(field);
    const std::optional<Duration> time = by_cell ? by_cell : parse_clock(text);
    if (!time && !text.empty()) {
        record.report(ProblemId::clock_unreadable, field, fmt::format("\"{}\"", text));
    }
    return time;
}

std::optional<Duration> between(Record& record, const std::optional<Duration>& from,
                                const std::optional<Duration>& to, std::string_view field,
                                Duration most) {
    if (!from || !to) {
        return std::nullopt;
    }
    const std::optional<Duration> time = clock_between(*from, *to, most);
    if (!time) {
        record.report(ProblemId::clock_unreadable, field, "\"" + record.text(field) + "\"");
    }
    return time;
}

void read_times(Record& record, TimedRun& run) {
    run.turnout = duration_field(record, "turnout_min");
    run.drive = duration_field(record, "drive_min");
    const std::optional<Duration> toned = clock_field(record, "toned_at");
    const std::optional<Duration> rolling = clock_field(record, "rolling_at");
    const std::optional<Duration> arrived = clock_field(record, "arrived_at");
    if (!run.turnout) {
        run.turnout = between(record, toned, rolling, "rolling_at", longest_turnout);
    }
    if (!run.drive) {
        run.drive = between(record, rolling, arrived, "arrived_at", longest_drive);
    }
    if (!run.turnout && !run.drive) {
        record.report(ProblemId::value_missing, "drive_min", {});
    }
}

// By its id, in this order; reported where nothing has it.
RunStart start_of(Record& record, const District& district, UnitIndex unit) {
    RunStart start;
    const std::string id = record.text("from_id");
    if (id.empty()) {
        start.station = unit.valid() ? at(district.units, unit).station : StationIndex();
        return start;
    }
    start.station = find_exactly<StationIndex>(district.stations, id, id_of);
    if (!start.station.valid()) {
        start.source = find_exactly<SourceIndex>(district.sources, id, id_of);
    }
    const auto place = std::ranges::find(district.dump_site_places, id, &DumpSitePlace::id);
    if (!start.station.valid() && !start.source.valid() &&
        place == district.dump_site_places.end()) {
        start.station = find_in<StationIndex>(district.stations, id, id_of);
    }
    if (!start.station.valid() && !start.source.valid()) {
        if (place == district.dump_site_places.end()) {
            record.report(ProblemId::run_start_unknown, "from_id", fmt::format("\"{}\"", id));
        } else {
            start.dump_site_place =
                static_cast<std::uint32_t>(place - district.dump_site_places.begin());
        }
    }
    return start;
}

PeriodIndex period_of(Record& record, const District& district) {
    const auto told = refer<PeriodIndex>(record, "period", district.periods, period_name,
                                         ProblemId::period_unknown);
    return !told.valid() && district.periods.size() == 1 ? PeriodIndex(0) : told;
}

bool is_set_aside(const Record& record) {
    return std::ranges::any_of(record.problems(), [](const Problem& problem) {
        return kind_of(problem.id).severity == Severity::set_aside;
    });
}

}  // namespace

LayerRows<TimedRun> read_timed_runs(const DistrictFile& file, const District& district,
                                    const WorkingCrs& crs, const Work& work) {
    const auto spec = file.layers.find("timed_runs");
    if (spec == file.layers.end()) {
        throw SettingsError(fmt::format(
            "{}: there are no runs to set beside the plan: add [timed_runs] with a table of timed "
            "runs, from the incident records or a drill (farwater keys says its columns)",
            file.path.string()));
    }
    const LayerSource source = open_source(spec->second, *find_section("timed_runs"));
    const ShapeReader shapes(source, crs, Box{});
    LayerRows<TimedRun> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        TimedRun run;
        run.row = record.row();
        run.id = record.text("run_id");
        if (run.id.empty()) {
            run.id = record.name();
        } else {
            record.call(run.id);
        }
        run.unit =
            refer<UnitIndex>(record, "unit_id", district.units, id_of, ProblemId::unit_unknown);
        if (record.text("unit_id").empty()) {
            record.report(ProblemId::value_missing, "unit_id", {});
        }
        const std::optional<PlaceShape> shape = shapes.place(record);
        run.date = record.date("date");
        run.period = period_of(record, district);
        read_times(record, run);
        run.from = start_of(record, district, run.unit);
        if (!shape || is_set_aside(record)) {
            return Taken::no;
        }
        run.to = shape->place;
        result.rows.push_back(std::move(run));
        return Taken::yes;
    });
    return result;
}

}  // namespace farwater::io
