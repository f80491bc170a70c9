#include <memory>
#include <string>
#include <utility>

#include "reports/comparison/comparison_results.h"
#include "reports/comparison/comparison_words.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

using planning::AnswerChange;

// The changes of a layer, row by row.
struct ChangeRows {
    const StoredAnswers& of_before;
    const StoredAnswers& of_after;
    const planning::AnswerChanges& all;

    const AnswerChange& operator()(std::size_t row) const { return all.changes[row]; }
    const StoredAnswer* before(std::size_t row) const {
        return answer_before(of_before, (*this)(row));
    }
    const StoredAnswer* after(std::size_t row) const {
        return answer_after(of_after, (*this)(row));
    }
};

io::Value tenths_or_null(std::optional<std::int32_t> tenths) {
    return tenths ? io::Value{*tenths / 10.0} : io::Value{};
}

io::Value state_value(const StoredAnswer* answer) {
    if (answer == nullptr) {
        return {};
    }
    return answer->state ? io::Value{word(*answer->state)} : value_of(answer->other_state.text());
}

io::Value met_value(const StoredAnswer* answer) {
    const bool is_told =
        answer != nullptr && answer->state && answer->state != SupplyState::no_building;
    return is_told ? io::Value{answer->state == SupplyState::held} : io::Value{};
}

io::Value number_value(const StoredAnswer* answer, std::size_t which) {
    return answer != nullptr && answer->numbers[which]
               ? io::Value{whole(*answer->numbers[which]) / 10.0}
               : io::Value{};
}

io::Value text_value(const StoredAnswer* answer, std::size_t which) {
    return answer != nullptr ? value_of(answer->texts[which].text()) : io::Value{};
}

// "state, cautious_gpm": what is another.
void put_what_changed(std::string& text, const AnswerChange& change) {
    text.clear();
    const auto add = [&text](std::string_view name) {
        text += text.empty() ? "" : ", ";
        text += name;
    };
    if (change.state_changed) {
        add(answer_state_column);
    }
    for (std::size_t i = 0; i < answer_number_columns.size(); ++i) {
        if (change.numbers_changed[i]) {
            add(answer_number_columns[i]);
        }
    }
    for (std::size_t i = 0; i < answer_text_columns.size(); ++i) {
        if (change.texts_changed[i]) {
            add(answer_text_columns[i]);
        }
    }
}

std::vector<ColumnOf> verdict_columns_of_change(const ChangeRows& rows) {
    const auto changed = std::make_shared<std::string>();
    return {
        text("outcome",
             "no_longer_met, newly_met: of the planned flow (state held); worse, better: in supply "
             "state; more_missing, less_missing: of the need, in the same state; same_state: other "
             "numbers alone; building_came, building_gone; came, gone: in one result only; "
             "state_not_told; not_compared: its id is blank or stands twice.",
             [rows](std::size_t row) { return io::Value{outcome_word(rows(row))}; }),
        text("cause",
             "need, water, both or none: the old flow judged against the new need and the new flow "
             "against the old need; data: the answer is unknown in one of them; not_told.",
             [rows](std::size_t row) { return io::Value{planning::word(rows(row).cause)}; }),
        text("what_changed", "The columns that are others, of those that both results tell.",
             [rows, changed](std::size_t row) {
                 put_what_changed(*changed, rows(row));
                 return value_of(*changed);
             }),
        text("state_before", "Supply state in the earlier result; empty: it is not there.",
             [rows](std::size_t row) { return state_value(rows.before(row)); }),
        text("state_after", "Supply state in the later result.",
             [rows](std::size_t row) { return state_value(rows.after(row)); }),
        yes_no("met_before", "Met its planned flow in the earlier result.",
               [rows](std::size_t row) { return met_value(rows.before(row)); }),
        yes_no("met_after", "Meets it in the later one.",
               [rows](std::size_t row) { return met_value(rows.after(row)); }),
    };
}

std::vector<ColumnOf> shortfall_columns_of_change(const ChangeRows& rows) {
    const auto value = [rows](std::optional<std::int32_t> planning::Shortfalls::* which) {
        return
            [rows, which](std::size_t row) { return tenths_or_null(rows(row).shortfalls.*which); };
    };
    return {
        real("shortfall_gpm_before", "Needed minus cautious flow in the earlier result, gpm.",
             value(&planning::Shortfalls::before)),
        real("shortfall_gpm_after", "The same in the later one, gpm.",
             value(&planning::Shortfalls::after)),
        real("old_flow_new_need_short_gpm",
             "What the earlier result's flow would miss of the later one's need, gpm.",
             value(&planning::Shortfalls::new_need)),
        real("new_flow_old_need_short_gpm",
             "What the later result's flow would miss of the earlier one's need, gpm.",
             value(&planning::Shortfalls::new_flow)),
    };
}

void add_both(std::vector<ColumnOf>& columns, const ChangeRows& rows) {
    constexpr std::array<std::string_view, answer_number_columns.size()> numbers{
        "Needed fire flow, gpm",
        "Cautious flow, gpm",
        "Cautious flow from the late horizon on, gpm",
        "The first engine's own tank on the fire, minutes from the alarm",
        "From here on water never runs dry, minutes from the alarm",
        "Cautious flow of the other way that was looked at, gpm"};
    constexpr std::array<std::string_view, answer_text_columns.size()> texts{
        "How water comes", "What sets the flow", "Water source at which the first tanker fills",
        "The weakest input that the answer rests on"};
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::string name(answer_number_columns[i]);
        const std::string what(numbers[i]);
        columns.push_back(
            real(name + "_before", what + ": in the earlier result.",
                 [rows, i](std::size_t row) { return number_value(rows.before(row), i); }));
        columns.push_back(
            real(name + "_after", what + ": in the later result.",
                 [rows, i](std::size_t row) { return number_value(rows.after(row), i); }));
    }
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const std::string name(answer_text_columns[i]);
        const std::string what(texts[i]);
        columns.push_back(
            text(name + "_before", what + ": in the earlier result.",
                 [rows, i](std::size_t row) { return text_value(rows.before(row), i); }));
        columns.push_back(
            text(name + "_after", what + ": in the later result.",
                 [rows, i](std::size_t row) { return text_value(rows.after(row), i); }));
    }
}

io::FeatureTable table_of_changes(TableHead head, const std::string& id_column,
                                  const std::string& id_means, const ChangeRows& rows) {
    std::vector<ColumnOf> columns{text(id_column, id_means, [rows](std::size_t row) {
        return value_of(id_of_change(rows.of_before, rows.of_after, rows(row)));
    })};
    for (auto* make : {&verdict_columns_of_change, &shortfall_columns_of_change}) {
        for (ColumnOf& column : make(rows)) {
            columns.push_back(std::move(column));
        }
    }
    add_both(columns, rows);
    return table(std::move(head), std::move(columns), rows.all.changes.size());
}

}  // namespace

io::FeatureTable parcel_changes(const ComparedResults& results, const AreaOfChange& area) {
    const ChangeRows rows{results.before.parcels, results.after.parcels,
                          results.comparison.parcels};
    io::FeatureTable changes = table_of_changes(
        {"parcel_changes", "Parcels that changed, came or went",
         "Between two results, worst season and period of each parcel; those that no longer meet "
         "their planned flow first. The shape is the later result's, of parcels that are gone the "
         "earlier one's."},
        "parcel_id", "Parcel.", rows);
    if (area) {
        changes.shape = io::ShapeKind::areas;
        changes.fill = [fill = std::move(changes.fill), rows, area](std::size_t row, io::Row& out) {
            fill(row, out);
            out.areas = area(rows(row));
        };
    }
    return changes;
}

io::FeatureTable target_changes(const ComparedResults& results, const PlaceOfChange& place) {
    const ChangeRows rows{results.before.targets, results.after.targets,
                          results.comparison.targets};
    io::FeatureTable changes =
        table_of_changes({"target_changes", "Targets that changed, came or went",
                          "The same columns as parcel_changes."},
                         "target_id", "Place without a parcel.", rows);
    if (place) {
        changes.shape = io::ShapeKind::point;
        changes.fill = [fill = std::move(changes.fill), rows, place](std::size_t row,
                                                                     io::Row& out) {
            fill(row, out);
            if (const auto point = place(rows(row))) {
                out.shape = {*point};
            }
        };
    }
    return changes;
}

}  // namespace farwater::reports
