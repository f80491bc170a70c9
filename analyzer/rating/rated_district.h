// The district as a rating sees it, and what was found out about it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/rating/place_rating.h"
#include "analyzer/rating/source_evidence.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/working.h"

namespace farwater::rating {

// How the water of one place comes about, for its calculation sheet.
struct PlaceCalculation {
    std::string why;  // it was chosen
    std::size_t row = 0;
    supply::Working working;  // in the variant that is worst for the rating
};

struct Rating {
    Terms terms;
    std::vector<SourceVerdict> sources;  // per source of the district
    std::vector<PlaceRating> places;     // per parcel, then per target: the worst of all variants
    supply::Assessment brought;          // with the apparatus and sources that count alone; each
                                         // place in its variant that is worst for the rating
    std::vector<PlaceCalculation> calculations;  // of worst and usual places
};

// Does the apparatus of that unit count? Its own aid or its station's, whichever is farther.
bool unit_counts(const District& district, const Unit& unit, const Terms& terms);

// The same district in which only what the terms count can bring water: other sources count as
// mapped, other units stay in quarters, and hose to a source is looked for as far as the terms
// credit it. Indices stay as they are.
District only_what_counts(const District& district, std::span<const SourceVerdict> sources,
                          const Terms& terms);

// Plans are compared by the terms: the minimum flow begun in time and without a gap, then more of
// it from full_within on.
supply::PlanOrder order_of(const Terms& terms);

// For every place that has a need: the terms' minimum flow over their duration.
std::vector<std::optional<Need>> needs_by_terms(std::span<const std::optional<Need>> needs,
                                                const Terms& terms);

}  // namespace farwater::rating
