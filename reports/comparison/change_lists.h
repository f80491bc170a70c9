// Parts of the page of a comparison: who got worse, better, came and went.
#pragma once

#include "reports/comparison/comparison_results.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

// Each a section of its own, most_rows_of_changes rows a list.
void add_worse(SheetBlocks& sheet, const ComparedResults& results);
void add_others(SheetBlocks& sheet, const ComparedResults& results);
void add_targets(SheetBlocks& sheet, const ComparedResults& results);  // nothing where none changed

}  // namespace farwater::reports
