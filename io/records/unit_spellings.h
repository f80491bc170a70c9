// How people spell units behind a number.
#pragma once

#include <string_view>

namespace farwater::io {

// The unit as io/records/unit_words.h spells it; empty for what is no unit. `text` is in lower case
// and without blanks around. A ton is a short ton, the lightest of that name; t is a tonne where
// the column (`theirs`) is in tonnes, else a short ton.
std::string_view unit_spelled(std::string_view text, std::string_view theirs);

}  // namespace farwater::io
