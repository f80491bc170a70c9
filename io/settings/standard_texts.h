// The published standards of needed flow (analyzer/demand/standards) and the terms of insurance
// rating (analyzer/rating/terms) as files that the build puts into the program, so that an
// installed one needs no search and its version stands for them.
#pragma once

#include <string_view>

#include "analyzer/district/words.h"

namespace farwater::io {

// TOML; empty for a method that rests on no standard.
std::string_view standard_text(NeedMethod method);
std::string_view standard_text(RatingTerms terms);

}  // namespace farwater::io
