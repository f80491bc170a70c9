// Who is there in each period, from the staffing table.
#pragma once

#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/assumptions.h"
#include "analyzer/district/calendar.h"
#include "analyzer/parallel/work.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// What staffing rows refer to.
struct StaffedThings {
    const std::vector<Station>& stations;
    const std::vector<Unit>& units;
    const std::vector<Period>& periods;
};

// A row that names no unit or station is set aside. One that names no period of the district file
// is a problem and never helps: in every period for which its unit, or the unit's station, has no
// row of its own, the least such crew counts where it is less than what the unit would have, and
// the longest such turnout where it is longer. Throws what for_each_record throws.
LayerRows<Staffing> read_staffing(const LayerSource& source, const StaffedThings& things,
                                  const Assumptions& assumptions, const Work& work);

}  // namespace farwater::io
