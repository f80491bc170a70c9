// Units as data and keys spell them.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace farwater::io {

// The unit that a field or key ends in ("_min", "_ft", "_gal", "_gpm", "_mph", "_lb", "_hp",
// "_mi", "_in", "_psi", "_acre"), without the underscore; empty where it has none.
std::string_view unit_of_name(std::string_view name);

// What a value in `theirs` is multiplied by to be in `ours`; none when one is not known or they
// measure different things.
std::optional<double> unit_factor(std::string_view theirs, std::string_view ours);

// The spellings that measure the same as `unit`; empty for an unknown one.
std::vector<std::string_view> units_like(std::string_view unit);

}  // namespace farwater::io
