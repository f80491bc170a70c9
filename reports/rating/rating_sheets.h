// What stands on each sheet of the rating's documents, between the title block and the cautions.
#pragma once

#include <cstddef>
#include <string>

#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

SheetBlocks coverage_sheet(const Findings& findings);  // statement, map, method, terms
SheetBlocks source_sheets(const Findings& findings, const RunRecord& record);  // one per source
SheetBlocks fleet_sheet(const Findings& findings);
SheetBlocks claim_sheet(const Findings& findings);
SheetBlocks calculation_sheets(const Findings& findings);  // of worst and usual places
SheetBlocks form_sheets(const Findings& findings);         // to be filled in by hand
SheetBlocks missing_sheet(const Findings& findings);

// A map with what it says about itself. Above `most_marks` parcels, places of one category that
// would lie on each other have one mark, and the note says so. O(parcels + road vertices).
struct CoverageMap {
    Drawing drawing;
    std::string note;
};
CoverageMap coverage_map(const Findings& findings, std::size_t most_marks = 50000);

}  // namespace farwater::reports
