#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "reports/comparison/comparison_results.h"
#include "reports/comparison/comparison_words.h"
#include "reports/layers/table_builder.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

struct MatrixCell {
    std::size_t from, to, parcels;
};

std::vector<MatrixCell> cells_of(const planning::AnswerChanges& changes) {
    std::vector<MatrixCell> cells;
    for (std::size_t from = 0; from < planning::matrix_size; ++from) {
        for (std::size_t to = 0; to < planning::matrix_size; ++to) {
            if (changes.matrix[from][to] > 0) {
                cells.push_back({from, to, changes.matrix[from][to]});
            }
        }
    }
    return cells;
}

struct RunLine {
    std::string what, before, after;
};

std::vector<RunLine> lines_of_runs(const ComparedResults& results) {
    const auto recorded_in_both = [&](std::string what, std::string_view key) {
        return RunLine{std::move(what), std::string(results.before.recorded(key)),
                       std::string(results.after.recorded(key))};
    };
    return {
        recorded_in_both("program", "program"),
        recorded_in_both("schema_version", "schema_version"),
        recorded_in_both("district", "district"),
        {"data_date", day(results.before.data_date), day(results.after.data_date)},
        recorded_in_both("district_file", "district_file"),
        recorded_in_both("district_file_sha256", "district_file_sha256"),
        {"parcels", std::to_string(results.before.parcels.places.size()),
         std::to_string(results.after.parcels.places.size())},
        {"targets", std::to_string(results.before.targets.places.size()),
         std::to_string(results.after.targets.places.size())},
    };
}

io::Value station_count(const std::optional<planning::StationCounts>& counts, std::size_t which) {
    const bool is_told = counts && counts->counts[which];
    return is_told ? io::Value{*counts->counts[which]} : io::Value{};
}

}  // namespace

io::FeatureTable state_changes(const ComparedResults& results) {
    const auto cells =
        std::make_shared<const std::vector<MatrixCell>>(cells_of(results.comparison.parcels));
    return table(
        {"state_changes", "Parcels from state to state",
         "Every parcel of both results: one that stands in both once, from its state in the "
         "earlier "
         "result to that in the later one."},
        {
            text("state_before",
                 "Supply state in the earlier result; not_there: the parcel came; not_compared: "
                 "its id is blank or stands twice; not_told.",
                 [cells](std::size_t row) {
                     return io::Value{planning::matrix_word((*cells)[row].from)};
                 }),
            text("state_after", "Likewise in the later one; not_there: the parcel is gone.",
                 [cells](std::size_t row) {
                     return io::Value{planning::matrix_word((*cells)[row].to)};
                 }),
            integer("parcels", "How many.",
                    [cells](std::size_t row) { return value_of_count((*cells)[row].parcels); }),
        },
        cells->size());
}

io::FeatureTable station_changes(const ComparedResults& results) {
    const auto& told = results.comparison.stations;
    const auto rows = std::make_shared<const std::vector<planning::StationChange>>(
        told ? *told : std::vector<planning::StationChange>{});
    std::vector<ColumnOf> columns{
        text("station_id",
             "Station whose engine is first at the dump site or source; empty: none gets there, or "
             "it is not known.",
             [rows](std::size_t row) { return value_of((*rows)[row].id); }),
        text("name", "Its name.", [rows](std::size_t row) { return value_of((*rows)[row].name); }),
    };
    for (std::size_t i = 0; i < planning::station_columns.size(); ++i) {
        const std::string name(planning::station_columns[i]);
        const std::string what = i == 0 ? "Improved parcels" : "Of them in state " + name;
        columns.push_back(
            integer(name + "_before", what + ", in the earlier result.",
                    [rows, i](std::size_t row) { return station_count((*rows)[row].before, i); }));
        columns.push_back(
            integer(name + "_after", what + ", in the later result.",
                    [rows, i](std::size_t row) { return station_count((*rows)[row].after, i); }));
    }
    return table({"station_changes", "Improved parcels by station of the first engine",
                  "From the tables by_station of both results; no rows where one has none."},
                 std::move(columns), rows->size());
}

io::FeatureTable input_changes(const ComparedResults& results) {
    const auto& inputs = results.comparison.inputs;
    const auto change = [&inputs](std::size_t row) -> const planning::InputChange& {
        return inputs[row];
    };
    return table(
        {"input_changes", "What the two results rest on, where it differs", std::string(no_proof)},
        {
            text(
                "topic",
                "program, data, district_file, seasons_and_periods, assumptions, need_standard, "
                "fleet, fill_sites, input_records.",
                [change](std::size_t row) { return io::Value{planning::word(change(row).topic)}; }),
            text("change",
                 "changed; came, gone: the whole record; only_told_before, only_told_after: one "
                 "result does not have it.",
                 [change](std::size_t row) {
                     return io::Value{planning::word(change(row).happened)};
                 }),
            text("record", "Key, unit, source or layer; empty: all of the topic.",
                 [change](std::size_t row) { return value_of(change(row).record); }),
            text("column", "Column of its table.",
                 [change](std::size_t row) { return value_of(change(row).column); }),
            text("value_before", "In the earlier result; empty: blank, or not there.",
                 [change](std::size_t row) { return value_of(change(row).before); }),
            text("value_after", "In the later result.",
                 [change](std::size_t row) { return value_of(change(row).after); }),
        },
        inputs.size());
}

io::FeatureTable compared_results(const ComparedResults& results) {
    const auto lines = std::make_shared<const std::vector<RunLine>>(lines_of_runs(results));
    const auto cell = [lines](std::string RunLine::* member) {
        return [lines, member](std::size_t row) { return value_of((*lines)[row].*member); };
    };
    return table(
        {"compared_results", "The two results that were compared", "Each by its own run record."},
        {
            text("key", "What.", cell(&RunLine::what)),
            text("value_before", "Of the earlier result.", cell(&RunLine::before)),
            text("value_after", "Of the later result.", cell(&RunLine::after)),
        },
        lines->size());
}

}  // namespace farwater::reports
