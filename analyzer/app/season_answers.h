// What a season keeps once its supply is known. The lists that supply chose from are as large as
// everything else of a district; the reports ask for few of their rows.
#pragma once

#include "analyzer/supply/assessment.h"
#include "reports/findings.h"

namespace farwater::app {

// Lets go of all hose lays, and of the round trips but for those that an answer of the season is
// served by and the shortest of each dump site. The order of those kept is as it was. Of the drives
// from stations those to dump sites stay, with no road closed; and in a season after the first only
// what answers rest on: no dump sites, which are the first one's, and drives to those that serve
// somebody. Precondition: all periods of the season are assessed, and no later season is.
// O(places x round trips of one + approaches).
void keep_what_is_reported(reports::SeasonFindings& season, const supply::Assessment& assessment);

}  // namespace farwater::app
