#include "reports/comparison/comparison_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/origin.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using planning::AnswerChange;
using planning::AnswerChanges;
using planning::Cause;
using planning::Happened;

constexpr std::array<std::pair<std::string_view, std::string_view>, 14> outcomes_in_words{{
    {"no_longer_met", "no longer meets its planned flow"},
    {"worse", "in a worse state"},
    {"gone", "gone: only in the earlier result"},
    {"not_compared", "not compared: its id is blank or stands twice"},
    {"state_not_told", "a result does not tell its state"},
    {"building_came", "has a building now"},
    {"came", "came: only in the later result"},
    {"newly_met", "newly meets its planned flow"},
    {"better", "in a better state"},
    {"building_gone", "has no building any more"},
    {"more_missing", "in the same state, with more missing"},
    {"less_missing", "in the same state, with less missing"},
    {"same_state", "in the same state, with other numbers"},
    {"unchanged", "the same"},
}};

constexpr std::array<std::string_view, 6> causes_in_words{
    "neither need nor water", "the need", "the water", "both", "the data", "not told"};

constexpr std::array<std::string_view, planning::topic_count> topics_in_words{
    "The program",         "What was read", "The district file",
    "Seasons and periods", "Assumptions",   "The method of need",
    "The fleet",           "Fill sites",    "Records in and out"};

}  // namespace

std::string_view outcome_word(const AnswerChange& change) {
    return change.no_longer_met ? "no_longer_met"
           : change.newly_met   ? "newly_met"
                                : planning::word(change.happened);
}

std::string_view outcome_in_words(std::string_view outcome) {
    const auto found = std::ranges::find_if(outcomes_in_words,
                                            [&](const auto& row) { return row.first == outcome; });
    return found == outcomes_in_words.end() ? outcome : found->second;
}

std::string_view cause_in_words(Cause cause) {
    return causes_in_words[static_cast<std::size_t>(cause)];
}

std::string_view topic_in_words(planning::Topic topic) {
    return topics_in_words[static_cast<std::size_t>(topic)];
}

std::string_view happened_in_words(planning::InputHappened happened) {
    constexpr std::array<std::string_view, 5> words{
        "other", "came", "gone", "only told by the earlier", "only told by the later"};
    return words[static_cast<std::size_t>(happened)];
}

const StoredAnswer* answer_before(const StoredAnswers& answers, const AnswerChange& change) {
    return change.before ? &answers.places[*change.before] : nullptr;
}
const StoredAnswer* answer_after(const StoredAnswers& answers, const AnswerChange& change) {
    return change.after ? &answers.places[*change.after] : nullptr;
}

std::string_view id_of_change(const StoredAnswers& before, const StoredAnswers& after,
                              const AnswerChange& change) {
    const StoredAnswer* later = answer_after(after, change);
    const StoredAnswer* either = later != nullptr ? later : answer_before(before, change);
    return either != nullptr ? std::string_view(either->id) : std::string_view();
}

std::string value_words(std::string_view value) {
    constexpr std::size_t a_hash = 32;
    constexpr std::size_t shown = 16;
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    while (!value.empty()) {
        const std::size_t run = std::min(value.find_first_not_of(digits), value.size());
        text += value.substr(0, run < a_hash ? run : shown);
        value.remove_prefix(run);
        const std::size_t other = std::min(value.find_first_of(digits), value.size());
        text += value.substr(0, other);
        value.remove_prefix(other);
    }
    return name_words(text);
}

std::string tenths_words(std::optional<std::int32_t> tenths) {
    return tenths ? fmt::format("{:.1f}", *tenths / 10.0) : "-";
}

std::string whole_gpm_words(std::int64_t tenths) {
    return in_thousands(static_cast<double>(tenths) / 10.0) + " gpm";
}

std::string district_of(const ComparedResults& results) {
    const std::string_view name = results.after.recorded("district");
    return name_words(name.empty() ? results.before.recorded("district") : name);
}

std::string origin_of(const StoredResult& result) {
    return origin_words(result.data_date, result.record);
}

}  // namespace farwater::reports
