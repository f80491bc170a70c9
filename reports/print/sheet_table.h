// A table as a value: paper and HTML print the same.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace farwater::reports {

// A cell that is to_fill is a ruled line: nothing is known, somebody writes it in by hand.
inline constexpr std::string_view to_fill = "\x1f";

// Columns whose header begins with '#' hold numbers, with '_' are filled in by hand and get room;
// the sign is left out. No headers: rows only.
struct SheetTable {
    std::vector<std::string> headers;
    std::vector<std::vector<std::string>> rows;
};

inline bool is_number_column(std::string_view header) { return header.starts_with('#'); }
inline bool is_column_by_hand(std::string_view header) { return header.starts_with('_'); }
inline std::string shown_header(std::string_view header) {
    return std::string(is_number_column(header) || is_column_by_hand(header) ? header.substr(1)
                                                                             : header);
}

}  // namespace farwater::reports
