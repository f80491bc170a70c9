// Numbers as people write them in a table: "1,500", "1,500 gpm", "12'6\"", "2 1/2 in", "n/a".
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace farwater::io {

enum class CellNumberKind : std::uint8_t {
    value,
    not_known,  // the cell says so (io/records/not_known.h)
    unreadable,
};

struct CellNumber {
    CellNumberKind kind = CellNumberKind::unreadable;
    double value = 0.0;  // in our unit; only of kind value
};

// What may stand beside a number that has no unit.
enum class NumberSign : std::uint8_t {
    none,
    money,  // "$250,000"
    share,  // "80%" is 0.8
};

// A plain number (parse_number), or one with commas between groups of exactly three figures. None
// for any other comma: "1,5" and "0,500" are decimals of other countries.
std::optional<double> parse_grouped_number(std::string_view text);

// The number that the text begins with has points before groups of exactly three figures and no
// zero first, as where points part thousands: "1.200", "12.500 l", "1.200.000", never "0.125".
bool may_part_thousands(std::string_view text);

// A number with a unit behind it (io/records/unit_spellings.h), or feet and inches, in `ours`. None
// where there is no unit, or one of another kind. `theirs` is the unit of the column.
std::optional<double> parse_with_unit(std::string_view text, std::string_view theirs,
                                      std::string_view ours);

// Any of these; a number alone is in `theirs`. Both units are empty for a field without one.
// Fractions of an inch ("2 1/2") only where `ours` is in.
CellNumber parse_quantity(std::string_view text, std::string_view theirs, std::string_view ours,
                          NumberSign sign = NumberSign::none);

}  // namespace farwater::io
