// The blocks of a sheet as pieces of paper.
#pragma once

#include <vector>

#include "reports/print/paper_pieces.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

// Headings are in the document's outline; a short list of facts stays on one page with its heading.
// Letters are `scale` times their usual size. The pieces hold all that they draw but drawings: the
// sheet must outlive them.
std::vector<PaperPiece> pieces_of(const PageCanvas& canvas, const SheetBlocks& sheet, double width,
                                  double scale = 1.0);

}  // namespace farwater::reports
