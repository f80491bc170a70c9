// Parts of a sheet as pieces of paper.
#pragma once

#include <vector>

#include "reports/cards/printed_sheet.h"
#include "reports/print/paper_pieces.h"

namespace farwater::reports {

// In letters of `size`, as wide as the column.
std::vector<PaperPiece> pieces_of(const PageCanvas& canvas, const SheetPart& part, double size,
                                  double width);

}  // namespace farwater::reports
