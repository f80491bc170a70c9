// The published standards of needed flow as files (analyzer/demand/standards) that the build puts
// into the program, so that an installed one needs no search and its version stands for them.
#pragma once

#include <string_view>

#include "analyzer/district/words.h"

namespace farwater::io {

// TOML; empty for a method that rests on no standard.
std::string_view standard_text(NeedMethod method);

}  // namespace farwater::io
