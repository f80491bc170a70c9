#include "reports/comparison/change_lists.h"

#include <array>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/comparison/comparison_page.h"
#include "reports/comparison/comparison_words.h"

namespace farwater::reports {
namespace {

using planning::AnswerChange;
using planning::Happened;

std::string answer_state_words(const StoredAnswer* answer) {
    return answer == nullptr ? std::string("-")
           : answer->state   ? spoken(word(*answer->state))
                             : spoken(answer->other_state.text());
}

std::string answer_number_words(const StoredAnswer* answer, AnswerNumber which) {
    return answer != nullptr && (*answer)[which] ? tenths_words(whole(*(*answer)[which])) : "-";
}

// "then > now", or once where it is the same.
std::string then_and_now(const StoredAnswer* before, const StoredAnswer* after, AnswerText which) {
    const auto of = [which](const StoredAnswer* answer) {
        return answer == nullptr || (*answer)[which].empty() ? std::string("-")
                                                             : spoken((*answer)[which].text());
    };
    const std::string then = of(before);
    const std::string now = of(after);
    return then == now ? now : then + " > " + now;
}

SheetBlocks::Cells row_of_change(const ComparedResults& results, const AnswerChange& change) {
    const StoredAnswer* before = answer_before(results.before.parcels, change);
    const StoredAnswer* after = answer_after(results.after.parcels, change);
    return {name_words(id_of_change(results.before.parcels, results.after.parcels, change)),
            answer_state_words(before),
            answer_state_words(after),
            answer_number_words(before, AnswerNumber::needed),
            answer_number_words(after, AnswerNumber::needed),
            answer_number_words(before, AnswerNumber::cautious),
            answer_number_words(after, AnswerNumber::cautious),
            std::string(cause_in_words(change.cause)),
            then_and_now(before, after, AnswerText::limit),
            then_and_now(before, after, AnswerText::fill_source)};
}

// A list of those that `is` says, under its own heading; nothing where there are none.
template <class Is>
void add_list(SheetBlocks& sheet, const ComparedResults& results, std::string_view title,
              const Is& is) {
    std::vector<SheetBlocks::Cells> rows;
    std::size_t count = 0;
    for (const AnswerChange& change : results.comparison.parcels.changes) {
        if (is(change) && ++count <= most_rows_of_changes) {
            rows.push_back(row_of_change(results, change));
        }
    }
    if (count == 0) {
        return;
    }
    sheet.subheading(fmt::format("{}: {}", title, count))
        .table({"Property", "State then", "Now", "#Needs then", "#Now", "#Flow then", "#Now",
                "Made by", "Limit", "Fill site"},
               std::move(rows));
    if (count > most_rows_of_changes) {
        sheet.note(
            fmt::format("The first {}; all are in parcel_changes.csv.", most_rows_of_changes));
    }
}

bool is_plain(const AnswerChange& change, Happened happened) {
    return change.happened == happened && !change.newly_met && !change.no_longer_met;
}

}  // namespace

void add_worse(SheetBlocks& sheet, const ComparedResults& results) {
    sheet.begin_section("worse", false).heading("What got worse");
    const planning::AnswerChanges& parcels = results.comparison.parcels;
    if (parcels.no_longer_met == 0) {
        sheet.paragraph("No parcel that met its planned flow fails to meet it now.");
    }
    add_list(sheet, results, "No longer meet their planned flow",
             [](const AnswerChange& change) { return change.no_longer_met; });
    add_list(sheet, results, "In a worse state",
             [](const AnswerChange& change) { return is_plain(change, Happened::worse); });
    add_list(sheet, results, "In the same state, with more of the need missing",
             [](const AnswerChange& change) { return is_plain(change, Happened::more_missing); });
    sheet.note(
        "Flows are cautious flows in gpm, of the worst season and period, unrounded: plan on "
        "less. " +
        std::string(no_proof));
    sheet.end_section();
}

void add_others(SheetBlocks& sheet, const ComparedResults& results) {
    sheet.begin_section("others", false).heading("What got better, came and went");
    add_list(sheet, results, "Newly meet their planned flow",
             [](const AnswerChange& change) { return change.newly_met; });
    add_list(sheet, results, "In a better state",
             [](const AnswerChange& change) { return is_plain(change, Happened::better); });
    add_list(sheet, results, "In the same state, with less of the need missing",
             [](const AnswerChange& change) { return is_plain(change, Happened::less_missing); });
    constexpr std::array<std::pair<Happened, std::string_view>, 7> rest{{
        {Happened::not_compared, "Not compared, for the id is blank or stands twice"},
        {Happened::gone, "Only in the earlier result"},
        {Happened::came, "Only in the later result"},
        {Happened::building_came, "Have a building now"},
        {Happened::building_gone, "Have no building any more"},
        {Happened::state_not_told, "A result does not tell the state"},
        {Happened::same_state, "In the same state, with other numbers"},
    }};
    for (const auto& [happened, title] : rest) {
        add_list(sheet, results, title, [happened = happened](const AnswerChange& change) {
            return is_plain(change, happened);
        });
    }
    sheet.end_section();
}

void add_targets(SheetBlocks& sheet, const ComparedResults& results) {
    const planning::AnswerChanges& targets = results.comparison.targets;
    if (targets.changes.empty()) {
        return;
    }
    std::vector<SheetBlocks::Cells> rows;
    for (const AnswerChange& change : targets.changes) {
        const StoredAnswer* before = answer_before(results.before.targets, change);
        const StoredAnswer* after = answer_after(results.after.targets, change);
        if (rows.size() < most_rows_of_changes) {
            rows.push_back(
                {name_words(id_of_change(results.before.targets, results.after.targets, change)),
                 std::string(outcome_in_words(outcome_word(change))), answer_state_words(before),
                 answer_state_words(after), answer_number_words(before, AnswerNumber::cautious),
                 answer_number_words(after, AnswerNumber::cautious),
                 std::string(cause_in_words(change.cause))});
        }
    }
    sheet.begin_section("targets", false)
        .heading(fmt::format("Targets that changed, came or went: {}", targets.changes.size()))
        .table({"Target", "What happened", "State then", "Now", "#Flow then", "#Now", "Made by"},
               std::move(rows))
        .end_section();
}

}  // namespace farwater::reports
