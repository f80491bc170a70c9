// Cells of road data that carry their unit: "65 mph", "10 st", "12'6\"".
#pragma once

#include <cstdint>
#include <string_view>

namespace farwater::io {

enum class MeasureKind : std::uint8_t {
    value,
    not_recorded,  // the cell says so: blank, none, signals, 999
    unreadable,
};

struct Measure {
    MeasureKind kind = MeasureKind::unreadable;
    double value = 0.0;  // in our unit; only of kind value
};

// `ours` is the unit to answer in (mph, ft or lb), `theirs` that of a number without one; both as
// io/records/unit_words.h spells them. Numbers and units as io/records/parse_quantity.h reads them,
// so that commas part thousands only. Of several values with ; between them the lowest counts.
// "walk" is 4 mph.
Measure parse_measure(std::string_view text, std::string_view theirs, std::string_view ours);

// A number in the unit of its column, or a code for "not recorded".
Measure measure_of(double number, std::string_view theirs, std::string_view ours);

}  // namespace farwater::io
