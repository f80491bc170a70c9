// The insurance rating of a district: its supply once more, with only what the terms count.
#pragma once

#include <optional>

#include "analyzer/app/analysis.h"
#include "analyzer/rating/rated_district.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"

namespace farwater::app {

// Preconditions: the district names terms, and `found` has its water, needs, profiles and seasons.
// None when `work` was stopped. Takes as long as all seasons and periods took without it. The
// calculations of single places are worked out where `found` tells everything.
std::optional<rating::Rating> rate_district(const Analysis& found, const routing::RoadSystem& roads,
                                            const routing::DumpSites& dump_sites, const Work& work,
                                            const StageBegins& begins);

}  // namespace farwater::app
