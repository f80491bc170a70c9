// Dates as people and spreadsheets write them. What can be two days is none of them, unless the
// district file says what stands first.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "analyzer/district/calendar.h"

namespace farwater::io {

// Of dates in figures that do not begin with the year.
enum class DateOrder : std::uint8_t { unstated, month_first, day_first };

// What the dates of a layer are read by.
struct DateRules {
    DateOrder order = DateOrder::unstated;
    std::optional<Date> today;  // no record can be of a later day; none = not judged
};

enum class DateKind : std::uint8_t {
    value,
    from_day_number,  // a spreadsheet's count of days; `date` is what it comes to
    not_known,        // the cell says so: blank, n/a, tbd
    ambiguous,        // day and month can be told apart by nothing
    unreadable,
};

struct ReadDate {
    DateKind kind = DateKind::unreadable;
    Date date{};  // of the kinds value and from_day_number
};

// 2025-06-01, 2025/6/1, 20250601; June 1, 2025 and 1-Jun-2025, months in English; 6/1/2025 and
// 6.1.25 where one day alone is meant, or `order` says which: then in that order only. A year of
// two figures is 2000 to 2029 or 1930 to 1999, as spreadsheets have it (from memory), and stands
// last beside the name of a month. A time behind the day is cut off. Years are 1900 to 2099.
ReadDate read_date(std::string_view text, DateOrder order);

// A number in a column of dates: 20250601, or the days since 1899-12-30 as spreadsheets count them
// (1904-01-01, which old ones of one maker count from, gives four years less: an older test), of
// the years 1950 to 2099.
ReadDate date_of_number(double number);

}  // namespace farwater::io
