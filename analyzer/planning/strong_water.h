// Where water is by now that is no weaker than a source that somebody thinks of.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/supply/water_review.h"

namespace farwater::planning {

// Places of the counted sources that are open in every season, give at least the rate and have at
// least the water. O(sources x seasons).
std::vector<Point> water_as_strong(const District& district, const supply::WaterReview& water,
                                   Flow rate, Volume usable);

}  // namespace farwater::planning
