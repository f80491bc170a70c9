#include "reports/comparison/comparison_page.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/comparison/change_lists.h"
#include "reports/comparison/comparison_words.h"
#include "reports/print/sheet_page.h"

namespace farwater::reports {
namespace {

void add_headline(SheetBlocks& sheet, const ComparedResults& results) {
    sheet.begin_section("headline", false).heading("What changed");
    std::vector<std::string> sentences = comparison_headline(results);
    sheet.statement(sentences.front());
    sentences.erase(sentences.begin());
    if (!sentences.empty()) {
        sheet.list(std::move(sentences));
    }
    sheet.facts({{"Earlier result", origin_of(results.before)},
                 {"Later result", origin_of(results.after)}});
    std::vector<std::string> first = comparison_cautions(results);
    if (!first.empty()) {
        sheet.subheading("To know first").list(std::move(first));
    }
    sheet.end_section();
}

void add_map(SheetBlocks& sheet, const ComparedResults& results, const ComparisonGround& ground) {
    const std::size_t changes = results.comparison.parcels.changes.size();
    if (changes == 0) {
        return;
    }
    sheet.begin_section("map", true)
        .heading("Where it got better and worse")
        .drawing(change_map(results, ground));
    if (changes > most_marks_of_changes) {
        sheet.note(fmt::format("The {} most urgent of {} parcels are marked.",
                               most_marks_of_changes, changes));
    }
    sheet.end_section();
}

// Rows and columns that hold anything; the sums stand at the end.
void add_matrix(SheetBlocks& sheet, const planning::AnswerChanges& parcels) {
    std::vector<std::size_t> used;
    for (std::size_t place = 0; place < planning::matrix_size; ++place) {
        std::size_t count = 0;
        for (std::size_t other = 0; other < planning::matrix_size; ++other) {
            count += parcels.matrix[place][other] + parcels.matrix[other][place];
        }
        if (count > 0) {
            used.push_back(place);
        }
    }
    SheetBlocks::Cells head{"From, down; to, across"};
    std::vector<SheetBlocks::Cells> rows;
    for (const std::size_t to : used) {
        head.push_back("#" + spoken(planning::matrix_word(to)));
    }
    head.emplace_back("#All");
    for (const std::size_t from : used) {
        SheetBlocks::Cells& row = rows.emplace_back();
        row.push_back(spoken(planning::matrix_word(from)));
        std::size_t sum = 0;
        for (const std::size_t to : used) {
            sum += parcels.matrix[from][to];
            row.push_back(
                parcels.matrix[from][to] == 0 ? "" : fmt::format("{}", parcels.matrix[from][to]));
        }
        row.push_back(fmt::format("{}", sum));
    }
    sheet.table(std::move(head), std::move(rows));
}

void add_station_counts(SheetBlocks& sheet, const ComparedResults& results) {
    const auto& stations = results.comparison.stations;
    sheet.subheading("Improved parcels by station of the first engine");
    if (!stations) {
        sheet.paragraph("A result has no table by_station: not told.");
        return;
    }
    const auto count = [](const std::optional<planning::StationCounts>& of, std::size_t which) {
        return of && of->counts[which] ? fmt::format("{}", *of->counts[which]) : std::string("-");
    };
    std::vector<SheetBlocks::Cells> rows;
    for (const planning::StationChange& station : *stations) {
        SheetBlocks::Cells& row = rows.emplace_back();
        row.push_back(station.id.empty() ? "none gets there, or not known"
                                         : name_words(station.id));
        row.push_back(name_words(station.name));
        for (std::size_t which = 0; which < planning::station_columns.size(); ++which) {
            row.push_back(count(station.before, which));
            row.push_back(count(station.after, which));
        }
    }
    sheet.table({"Station", "Name", "#Parcels then", "#Now", "#Held then", "#Now", "#Late then",
                 "#Now", "#Short then", "#Now", "#Tank only then", "#Now"},
                std::move(rows));
}

void add_states_from_and_to(SheetBlocks& sheet, const ComparedResults& results) {
    sheet.begin_section("states", true)
        .heading("States from and to")
        .paragraph(
            "Every parcel of both results once: down the state that it was in, across the "
            "one that it is in.");
    add_matrix(sheet, results.comparison.parcels);
    add_station_counts(sheet, results);
    sheet.end_section();
}

// "T5: tank_gal"
std::string what_differs(const planning::InputChange& change) {
    std::string text = change.record.empty() ? "all of it" : name_words(change.record);
    if (!change.column.empty()) {
        text = (change.record.empty() ? "" : text + ": ") + name_words(change.column);
    }
    return text;
}

void add_inputs(SheetBlocks& sheet, const ComparedResults& results) {
    const auto& inputs = results.comparison.inputs;
    sheet.begin_section("inputs", false).heading("What the answers rest on, where it differs");
    sheet.paragraph(inputs.empty() ? "The results tell of no difference in what they rest on."
                                   : no_proof);
    for (std::size_t topic = 0; topic < planning::topic_count; ++topic) {
        std::vector<SheetBlocks::Cells> rows;
        std::size_t count = 0;
        for (const planning::InputChange& change : inputs) {
            if (change.topic == static_cast<planning::Topic>(topic) &&
                ++count <= most_rows_of_changes) {
                rows.push_back({what_differs(change),
                                std::string(happened_in_words(change.happened)),
                                value_words(change.before), value_words(change.after)});
            }
        }
        if (count > 0) {
            sheet
                .subheading(fmt::format("{}: {}",
                                        topic_in_words(static_cast<planning::Topic>(topic)), count))
                .table({"What", "How", "Then", "Now"}, std::move(rows));
        }
        if (count > most_rows_of_changes) {
            sheet.note(
                fmt::format("The first {}; all are in input_changes.csv.", most_rows_of_changes));
        }
    }
    sheet.end_section();
}

}  // namespace

std::string comparison_page(const ComparedResults& results, const ComparisonGround& ground) {
    SheetBlocks sheet;
    add_headline(sheet, results);
    if (!results.comparison.parcels.changes.empty()) {
        add_worse(sheet, results);
        add_map(sheet, results, ground);
        add_others(sheet, results);
    }
    add_targets(sheet, results);
    add_states_from_and_to(sheet, results);
    add_inputs(sheet, results);
    return sheet_document(
        {district_of(results), "Since the earlier result",
         "Earlier: " + origin_of(results.before) + ". Later: " + origin_of(results.after)},
        sheet, for_the_department);
}

}  // namespace farwater::reports
