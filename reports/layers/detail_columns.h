// The columns that tell more of a flow: how it builds up, and what one more of each thing gains.
#pragma once

#include <vector>

#include "reports/findings.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Of a parcel or target (its row): the cautious flow from each minute since the alarm on.
std::vector<ColumnOf> build_up_columns(const Findings& findings);

// By one more of each thing; empty without a shuttle.
std::vector<ColumnOf> gain_columns(const Findings& findings);

}  // namespace farwater::reports
