// Where a printed book comes from, on its pages and in its own description.
#pragma once

#include <string>

#include "reports/cards/card_book.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// "Data of 2026-05-31. farwater 1.0. District file 0123456789ab."
std::string origin_of_book(const CardBook& book);

DocumentFacts facts_of_book(const CardBook& book, const std::string& title);

}  // namespace farwater::reports
