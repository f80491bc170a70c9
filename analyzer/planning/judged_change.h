// One place that stands in two results, judged: see answer_changes.h for the rules.
#pragma once

#include <cstdint>
#include <optional>

#include "analyzer/planning/answer_changes.h"

namespace farwater::planning {

// Needed minus cautious flow, never below 0, in tenths of a gpm: as results have it. None where one
// of the two is not told, or blank.
std::optional<std::int32_t> shortfall_of(const StoredAnswer& answer);

// Precondition: both rows are there.
AnswerChange judged(const StoredAnswers& before, std::uint32_t row_before,
                    const StoredAnswers& after, std::uint32_t row_after);

}  // namespace farwater::planning
