// Parts of a sheet as pieces of paper that are not torn: each knows its height and draws itself.
#pragma once

#include <functional>
#include <vector>

#include "reports/cards/page_canvas.h"
#include "reports/cards/printed_sheet.h"

namespace farwater::reports {

struct SheetPiece {
    double height = 0.0;
    bool stays_with_next = false;  // a heading, a table's head
    std::function<void(PageCanvas& canvas, Point top_left)> draw;
};

// In letters of `size`, as wide as the column.
std::vector<SheetPiece> pieces_of(const PageCanvas& canvas, const SheetPart& part, double size,
                                  double width);

}  // namespace farwater::reports
