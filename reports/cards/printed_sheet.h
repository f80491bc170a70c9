// What one card says, as a value: the PDF and the HTML print the same.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "reports/cards/site_map.h"

namespace farwater::reports {

// The few numbers that are read first.
struct BigNumber {
    std::string label, number, unit, note;
};

// A cell that is to_fill is a ruled line: nothing is known, somebody writes it in by hand.
inline constexpr std::string_view to_fill = "\x1f";

struct SheetText {
    std::string text;
    bool bold = false;
};

// Columns whose header begins with '#' hold numbers; the sign is left out. No headers: rows only.
struct SheetTable {
    std::vector<std::string> headers;
    std::vector<std::vector<std::string>> rows;
};

inline bool is_number_column(std::string_view header) { return header.starts_with('#'); }

// Ruled lines beside each other, each with what belongs there.
struct LinesToFill {
    std::vector<std::string> labels;
};

using SheetItem = std::variant<SheetText, SheetTable, LinesToFill>;

enum class SheetColumn : std::uint8_t { both, left, right, foot };  // foot: both, at the end

struct SheetPart {
    std::string heading;
    SheetColumn column = SheetColumn::left;
    std::vector<SheetItem> items;
};

struct PrintedSheet {
    std::string anchor;              // what links lead to: "card-7"
    std::string badge;               // "7"
    std::string kind;                // "RUN CARD"
    std::string title;               // "Mill Road at Hill Road"
    std::string outline;             // in the list of contents
    std::vector<std::string> lines;  // under the title
    std::vector<BigNumber> numbers;
    std::vector<SiteMap> maps;  // none or two
    std::vector<SheetPart> parts;
};

}  // namespace farwater::reports
