// The insurance rating of a district: its supply once more, with only what the terms count.
#pragma once

#include <functional>
#include <optional>

#include "analyzer/app/analysis.h"
#include "analyzer/rating/rated_district.h"
#include "routing/drive_times.h"

namespace farwater::app {

// Works out round trips and supply of one season of the roads' district into an analysis, and shows
// them period by period.
using AssessSeason = std::function<void(Analysis& analysis, const routing::RoadSystem& roads,
                                        SeasonIndex season, const Onlooker& onlooker)>;

// Preconditions: the district names terms, and `found` has its water, needs, profiles and seasons.
// None when `work` was stopped. Takes as long as all seasons and periods took without it. The
// calculations of single places are worked out where `found` tells everything.
std::optional<rating::Rating> rate_district(const Analysis& found, const routing::RoadSystem& roads,
                                            const AssessSeason& assess, const Work& work);

}  // namespace farwater::app
