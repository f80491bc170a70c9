// What stands on each sheet of the rating's documents, between the title block and the cautions.
#pragma once

#include <string>

#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

std::string coverage_sheet(const Findings& findings);  // statement, map, method, terms
std::string source_sheets(const Findings& findings, const RunRecord& record);  // one per source
std::string fleet_sheet(const Findings& findings);
std::string claim_sheet(const Findings& findings);
std::string calculation_sheets(const Findings& findings);  // of worst and usual places
std::string form_sheets(const Findings& findings);         // to be filled in by hand
std::string missing_sheet(const Findings& findings);

// The district with its properties by category, its sources and stations; an <svg> element.
std::string coverage_map(const Findings& findings);

}  // namespace farwater::reports
