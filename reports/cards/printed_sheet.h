// What one card says, as a value: the PDF and the HTML print the same.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "reports/cards/site_map.h"
#include "reports/print/sheet_table.h"

namespace farwater::reports {

// The few numbers that are read first.
struct BigNumber {
    std::string label, number, unit, note;
};

struct SheetText {
    std::string text;
    bool bold = false;
};

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
