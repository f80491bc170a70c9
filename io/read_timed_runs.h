// Runs that somebody timed, as [timed_runs] of the district file tells them.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/district/timed_run.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/district_file.h"
#include "io/records/layer_rows.h"

namespace farwater::io {

// In the order of the records. A unit, period or start that the district does not have sets a
// record aside, and so does neither a turnout nor a drive. Minutes that are given go before those
// between the times of day. With one period in the district a blank is that one. Throws
// SettingsError where the file has no [timed_runs], and InputError as read_points does.
LayerRows<TimedRun> read_timed_runs(const DistrictFile& file, const District& district,
                                    const WorkingCrs& crs, const Work& work);

}  // namespace farwater::io
