// The columns that say where the tankers of a shuttle fill.
#pragma once

#include <vector>

#include "reports/findings.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Rows are parcels, then targets. The second and third fill site are in use at the same time as the
// first; empty where there is none, and without a shuttle.
std::vector<ColumnOf> fill_columns(const Findings& findings);

}  // namespace farwater::reports
