// The address index on paper: roads in three columns, house numbers with the card's number.
#pragma once

#include <vector>

#include "reports/cards/address_index.h"
#include "reports/cards/draw_sheet.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// What must stand before the index, sentence by sentence; the same in the HTML.
std::vector<std::string> words_before_index(const CardBook& book);

// As many pages as it takes, each ended; the first is where "index" leads to.
void draw_index_pages(PageCanvas& canvas, const CardBook& book, const std::vector<IndexRoad>& roads,
                      const EndsPage& ends_page);

}  // namespace farwater::reports
