// Which terms of insurance rating the district is held against: [rating] of the district file.
#pragma once

#include "analyzer/district/standard.h"
#include "analyzer/district/words.h"

namespace farwater {

struct RatingRules {
    RatingTerms terms = RatingTerms::schedule;
    Standard standard;  // the terms as numbers and words; keys: analyzer/rating/terms
};

}  // namespace farwater
