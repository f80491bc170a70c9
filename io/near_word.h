// "Did you mean": the word of a list that a misspelt one is nearest to.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace farwater::io {

// Letters to insert, delete, change or swap with their neighbour; upper and lower case count as
// the same (optimal string alignment). O(product of the lengths).
std::size_t spelling_distance(std::string_view a, std::string_view b);

// The nearest of the list, the earlier one where two are as near; empty when none is within
// a third of the word's letters (at least 1).
std::string_view nearest_word(std::string_view word, std::span<const std::string_view> list);

// Lower case, without blanks, underscores and hyphens: people write one name as "weekday_day",
// "Weekday day" and "weekday-day".
std::string plain_name(std::string_view name);

// `; did you mean "name"?`, or nothing.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> list);

// `a, b or c`.
std::string one_of(std::span<const std::string_view> list);

}  // namespace farwater::io
