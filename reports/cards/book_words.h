// Where a printed book comes from, on its pages and in its own description.
#pragma once

#include <string>

#include "reports/cards/card_book.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

DocumentFacts facts_of_book(const CardBook& book, const std::string& title);

}  // namespace farwater::reports
