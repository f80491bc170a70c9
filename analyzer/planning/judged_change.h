// One place that stands in two results, judged: see answer_changes.h for the rules.
#pragma once

#include <cstdint>
#include <optional>

#include "analyzer/planning/answer_changes.h"

namespace farwater::planning {

// Which flow is set against the need: that of the better way (supply::flow_from_start), as results
// have it, or the cautious one where only one of two results tells the other way's flow; else its
// column alone would be a change.
enum class FlowJudged : std::uint8_t { of_better_way, cautious };
FlowJudged flow_judged(const StoredAnswers& before, const StoredAnswers& after);

// Needed minus that flow, never below 0, in tenths of a gpm. None where one of the two is not told,
// or blank.
std::optional<std::int32_t> shortfall_of(const StoredAnswer& answer, FlowJudged judged);

// Precondition: both rows are there.
AnswerChange judged(const StoredAnswers& before, std::uint32_t row_before,
                    const StoredAnswers& after, std::uint32_t row_after);

}  // namespace farwater::planning
