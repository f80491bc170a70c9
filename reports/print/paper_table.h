// A table on paper: columns as wide as they need, rows as pieces, its head again on every page.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reports/print/paper_pieces.h"
#include "reports/print/sheet_table.h"

namespace farwater::reports {

// In letters of `size`; a row that is too tall for a page goes on in a row below. No pieces of a
// table without columns.
std::vector<PaperPiece> table_pieces(const PageCanvas& canvas, const SheetTable& table, double size,
                                     double width);

// Empty rows to write in by hand, with a line round every cell.
std::vector<PaperPiece> blank_table_pieces(const PageCanvas& canvas,
                                           const std::vector<std::string>& headers,
                                           std::size_t rows, double size, double width);

}  // namespace farwater::reports
