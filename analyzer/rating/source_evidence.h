// Which sources count for insurance rating, and what keeps the others from it: missing evidence is
// named, never filled in.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "analyzer/rating/engine_reach.h"
#include "analyzer/rating/rating_terms.h"
#include "analyzer/supply/water_review.h"

namespace farwater::rating {

// In the order in which they are told.
enum class SourceLack : std::uint8_t {
    use,          // it is not declared for rating
    standing,     // not trusted enough: no test
    test_date,    // nobody says when it was tested
    test_age,     // how long ago cannot be judged
    test_lapsed,  // too long ago
    not_counted,  // no rate or volume that could count at all
    flow,         // less than the minimum
    volume,       // does not last
    cistern,      // too small
    lift,         // too high, or not known
    head,         // too much with losses at the minimum flow
    certificate,  // of a drought is missing
    all_weather,  // access in all weather is not told
    freeze,       // nobody says that it can be used in freezing weather
    all_year,     // out in a season
    engine,       // no engine gets to it, or not in every season
    permission,   // of its owner, in writing
};
std::span<const std::string_view> words_of(SourceLack);
inline std::string_view word(SourceLack lack) {
    return words_of(lack)[static_cast<std::size_t>(lack)];
}
// A short sentence of what is missing.
std::string_view sentence_of(SourceLack lack);

struct SourceVerdict {
    std::vector<SourceLack> lacks;  // none: it counts
    bool creditable() const { return lacks.empty(); }
    bool is_candidate = false;  // declared for rating
};

// Per source of the district. Limits count inclusive. Terms that ask for water all year ask for an
// engine there all year.
std::vector<SourceVerdict> judge_sources(const District& district, const supply::WaterReview& water,
                                         const EngineReach& reach, const Terms& terms);

// What a counted source gives over the duration, into an engine whose pump is the planning default:
// no more than its suction line lets through, whatever was tested.
Flow credited_rate(const District& district, const supply::CountedSource& counted,
                   Duration duration);

}  // namespace farwater::rating
