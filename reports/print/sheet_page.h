// The HTML that a sheet to print stands in: one file without anything outside it.
#pragma once

#include <string>
#include <string_view>

namespace farwater::reports {

// For the blocks of sheet_blocks.h, on screen and on US letter.
std::string_view sheet_style();

// The cautions, framed; `first` before them, unless it is empty.
std::string caution_box(std::string_view first = {});

}  // namespace farwater::reports
