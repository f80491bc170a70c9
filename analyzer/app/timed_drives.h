// Timed runs beside what the plan says of them.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/timed_run.h"
#include "analyzer/parallel/work.h"
#include "analyzer/planning/calibration.h"
#include "routing/drive_times.h"

namespace farwater::app {

// Per run. Drives are those of `run`: loaded, by the unit's profile, in the season of the run's
// month (the first where it is not told), from where the start stands on the roads to the nearest
// road that the unit may use; a station beyond the data has the drive to its gate before it. None
// where there is no way within 300 min, or the unit is no engine and no tanker. Turnout: that of
// the roster for the run's period. One search per start, profile and season. Incomplete when
// stopped.
std::vector<planning::RunBesidePlan> beside_plan(const routing::RoadSystem& roads,
                                                 std::span<const TimedRun> runs, const Work& work);

}  // namespace farwater::app
