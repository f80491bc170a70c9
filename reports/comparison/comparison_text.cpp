#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/cautions.h"
#include "reports/comparison/comparison_results.h"
#include "reports/comparison/comparison_words.h"

namespace farwater::reports {
namespace {

constexpr std::size_t most_named = 10;

std::string flow_words(const StoredAnswer* answer) {
    const bool is_told = answer != nullptr && (*answer)[AnswerNumber::cautious];
    return is_told ? tenths_words(whole(*(*answer)[AnswerNumber::cautious])) : "-";
}

std::string named_losses(const ComparedResults& results) {
    const planning::AnswerChanges& parcels = results.comparison.parcels;
    std::string text;
    std::size_t named = 0;
    for (const planning::AnswerChange& change : parcels.changes) {
        if (change.no_longer_met && ++named <= most_named) {
            text += fmt::format(
                "  {:<24} {} to {} gpm, by {}\n",
                name_words(id_of_change(results.before.parcels, results.after.parcels, change)),
                flow_words(answer_before(results.before.parcels, change)),
                flow_words(answer_after(results.after.parcels, change)),
                cause_in_words(change.cause));
        }
    }
    if (parcels.no_longer_met > most_named) {
        text += fmt::format("  and {} more\n", parcels.no_longer_met - most_named);
    }
    return text.empty() ? text : "\nNo longer meet their planned flow:\n" + text;
}

// How many differences each topic has.
std::string counted_inputs(const ComparedResults& results) {
    std::array<std::size_t, planning::topic_count> counts{};
    for (const planning::InputChange& change : results.comparison.inputs) {
        ++counts[static_cast<std::size_t>(change.topic)];
    }
    std::string text;
    for (std::size_t topic = 0; topic < counts.size(); ++topic) {
        if (counts[topic] > 0) {
            text += fmt::format("  {:<24} {:>6}\n",
                                topic_in_words(static_cast<planning::Topic>(topic)), counts[topic]);
        }
    }
    return text.empty() ? text
                        : "\nWhat the answers rest on, differences (input_changes.csv):\n" + text +
                              "  " + std::string(no_proof) + "\n";
}

}  // namespace

std::string comparison_text(const ComparedResults& results) {
    std::string text = fmt::format("{}\n  earlier: {}\n  later:   {}\n\n", district_of(results),
                                   origin_of(results.before), origin_of(results.after));
    for (const std::string& sentence : comparison_cautions(results)) {
        text += sentence + "\n";
    }
    for (const std::string& sentence : comparison_headline(results)) {
        text += "  " + sentence + "\n";
    }
    text += named_losses(results) + counted_inputs(results) + "\n";
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

}  // namespace farwater::reports
