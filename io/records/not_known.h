// Words in a cell that say that nobody knows.
#pragma once

#include <string_view>

namespace farwater::io {

// Blank, "n/a", "na", "#n/a", "unknown", "unk", "tbd", "not known", "null", "?", "-" and other
// dashes, in any case. "none" and "no" are not among them: they can mean zero.
bool says_not_known(std::string_view text);

}  // namespace farwater::io
