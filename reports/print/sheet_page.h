// The HTML that a sheet to print stands in: one file without anything outside it.
#pragma once

#include <string>
#include <string_view>

#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

// For the blocks of sheet_blocks.h, on screen and on US letter.
std::string_view sheet_style();

struct DocumentHead {
    std::string name;    // the district's
    std::string title;   // what the document is
    std::string origin;  // where it comes from
};

// The skeleton of a document without a script: `more_style` behind sheet_style(), `body` as it is.
// Title and name are escaped.
std::string html_document(std::string_view title, std::string_view name,
                          std::string_view more_style, std::string_view body);

// A whole document without a script: head, cautions, with `first_caution` before them unless it is
// empty, then the blocks; `more_style` behind sheet_style(). All text is escaped; well-formed as
// XML.
std::string sheet_document(const DocumentHead& head, const SheetBlocks& sheet,
                           std::string_view first_caution = {}, std::string_view more_style = {});

// The cautions, framed; `first` before them, unless it is empty.
std::string caution_box(std::string_view first = {});

}  // namespace farwater::reports
