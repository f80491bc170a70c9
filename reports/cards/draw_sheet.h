// Lays a printed sheet on paper: one page where it fits in letters that can be read, else as many
// as it takes; nothing is cut.
#pragma once

#include <functional>

#include "reports/cards/printed_sheet.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

inline constexpr Rect printed_area{.left = 26.0, .top = 22.0, .width = 560.0, .height = 736.0};

// Ends a page and begins the next: the foot of the page is written there.
using EndsPage = std::function<void()>;

// Returns how many pages it took. Precondition: the canvas is at the top of an empty page; all
// pages are ended.
int draw_sheet(PageCanvas& canvas, const PrintedSheet& sheet, const EndsPage& ends_page);

}  // namespace farwater::reports
