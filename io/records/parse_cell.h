// One cell of somebody's table, read strictly: the whole text means something or it means nothing.
// Text is trimmed of blanks first; an empty one is never an error, see is_blank.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "analyzer/district/calendar.h"

namespace farwater::io {

std::string_view trimmed(std::string_view text);  // without blanks, tabs and line ends around it
bool is_blank(std::string_view text);
inline bool is_digit(char c) { return c >= '0' && c <= '9'; }
std::string lower_case(std::string_view text);  // ASCII letters only, whatever the locale

// Digits with an optional sign, decimal point and exponent, whatever the locale. None for anything
// else: "1,200", "n/a", "750 gpm", "12-3", "nan".
std::optional<double> parse_number(std::string_view text);

// yes no true false y n t f 1 0, in any case.
std::optional<bool> parse_yes_no(std::string_view text);

// 2026-05-31, also 2026/05/31; a time behind it is cut off. None for a day that is in no calendar.
std::optional<Date> parse_year_first_date(std::string_view text);

// "all", "4-11", "11-3" (over the new year), "4,5,6", "1-3,12".
std::optional<MonthSet> parse_months(std::string_view text);

}  // namespace farwater::io
