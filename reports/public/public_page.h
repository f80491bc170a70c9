// report.html for the public: what the district can hold, on one page without a script.
#pragma once

#include <string>

#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

// Headline, a map of the ground by flow with roads, water and stations, tables of public_tables,
// cautions. `record` is that of public_record; `parcels_left_out`: on ground that is not shown.
// Every text is escaped; nothing leads to the network. O(roads + zones).
std::string public_page(const Findings& findings, const RunRecord& record,
                        std::size_t parcels_left_out);

}  // namespace farwater::reports
