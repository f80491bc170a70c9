// What the documents of a comparison say in words, the same in text, page and JSON.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reports/comparison/comparison_results.h"

namespace farwater::reports {

// no_longer_met and newly_met, else what happened to the supply state.
std::string_view outcome_word(const planning::AnswerChange& change);
std::string_view outcome_in_words(std::string_view outcome);  // "no longer meets its planned flow"
std::string_view cause_in_words(planning::Cause cause);       // "the water"
std::string_view topic_in_words(planning::Topic topic);
std::string_view happened_in_words(planning::InputHappened happened);

// The answers of a change; null: it is not there.
const StoredAnswer* answer_before(const StoredAnswers& answers,
                                  const planning::AnswerChange& change);
const StoredAnswer* answer_after(const StoredAnswers& answers,
                                 const planning::AnswerChange& change);

std::string_view id_of_change(const StoredAnswers& before, const StoredAnswers& after,
                              const planning::AnswerChange& change);

// A value of an input in a cell: of a hash its first 16 digits, as documents name it.
std::string value_words(std::string_view value);

std::string tenths_words(std::optional<std::int32_t> tenths);  // "1234.5"; "-" where not known
std::string whole_gpm_words(std::int64_t tenths);              // "1,234 gpm"; sign in front

// The name of the district that was looked at: of the later result, else of the earlier one.
std::string district_of(const ComparedResults& results);
// Program, data date and district file of one, as every document says it.
std::string origin_of(const StoredResult& result);

// The headline: whole sentences; one where nothing changed.
std::vector<std::string> comparison_headline(const ComparedResults& results);
// What to know before the numbers are believed: another program, a what-if, columns that one of
// them does not tell, ids that stand twice. Whole sentences; may be empty.
std::vector<std::string> comparison_cautions(const ComparedResults& results);

inline constexpr std::string_view no_proof =
    "These are the differences that the results tell of themselves, not proof of what made an "
    "answer another.";
inline constexpr std::string_view for_the_department =
    "For the department; not for the public: properties stand in it.";

}  // namespace farwater::reports
