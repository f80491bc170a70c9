// Terms as the program has them.
#pragma once

#include "analyzer/rating/rating_terms.h"
#include "io/settings/read_standard.h"

namespace farwater::rating {

inline Terms built_in(RatingTerms which) { return terms_of(io::built_in_terms(which)); }
inline Terms schedule() { return built_in(RatingTerms::schedule); }

}  // namespace farwater::rating
