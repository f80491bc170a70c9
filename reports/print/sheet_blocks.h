// What a sheet says, block by block, as a value: HTML and paper print the same.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "reports/print/drawing.h"
#include "reports/print/sheet_table.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {

enum class TextKind : std::uint8_t { heading, subheading, paragraph, statement, note };

struct TextBlock {
    TextKind kind = TextKind::paragraph;
    std::string text;
};
struct ListBlock {
    std::vector<std::string> items;
};
// A name and its value per row; a value that is empty reads "not recorded" and stands out.
struct FactsBlock {
    std::vector<std::pair<std::string, std::string>> rows;
};
struct BlankTableBlock {
    std::vector<std::string> headers;
    std::size_t rows = 0;
};
struct LinesBlock {
    std::vector<std::string> names;
};
struct SignaturesBlock {
    std::vector<std::string> roles;
};
struct SectionBegin {
    std::string id;
    bool new_page = false;
};
struct SectionEnd {};

using SheetBlock = std::variant<TextBlock, ListBlock, SheetTable, FactsBlock, BlankTableBlock,
                                LinesBlock, SignaturesBlock, SectionBegin, SectionEnd, Drawing>;

inline constexpr std::string_view not_recorded = "not recorded";
inline constexpr std::string_view signs_with = "name, signature and date";

class SheetBlocks {
public:
    using Cells = std::vector<std::string>;

    SheetBlocks& heading(std::string_view text) { return add_text(TextKind::heading, text); }
    SheetBlocks& subheading(std::string_view text) { return add_text(TextKind::subheading, text); }
    SheetBlocks& paragraph(std::string_view text) { return add_text(TextKind::paragraph, text); }
    // A sentence that carries the sheet.
    SheetBlocks& statement(std::string_view text) { return add_text(TextKind::statement, text); }
    SheetBlocks& note(std::string_view text) { return add_text(TextKind::note, text); }
    SheetBlocks& list(std::vector<std::string> items) { return add(ListBlock{std::move(items)}); }
    // Words of a cell, which ids are, are cut like names (reports/text/plain_text.h).
    SheetBlocks& table(Cells headers, std::vector<Cells> rows) {
        for (Cells& row : rows) {
            for (std::string& cell : row) {
                cell = with_names_cut(cell);
            }
        }
        return add(SheetTable{std::move(headers), std::move(rows)});
    }
    SheetBlocks& facts(std::vector<std::pair<std::string, std::string>> rows) {
        for (auto& [name, value] : rows) {
            value = with_names_cut(value);
        }
        return add(FactsBlock{std::move(rows)});
    }
    // A header with that many empty rows, to be filled in by hand.
    SheetBlocks& blank_table(Cells headers, std::size_t rows) {
        return add(BlankTableBlock{std::move(headers), rows});
    }
    SheetBlocks& lines_to_fill(std::vector<std::string> names) {
        return add(LinesBlock{std::move(names)});
    }
    SheetBlocks& signatures(std::vector<std::string> roles) {
        return add(SignaturesBlock{std::move(roles)});
    }
    SheetBlocks& begin_section(std::string id, bool new_page) {
        return add(SectionBegin{std::move(id), new_page});
    }
    SheetBlocks& end_section() { return add(SectionEnd{}); }
    SheetBlocks& drawing(Drawing drawing) { return add(std::move(drawing)); }

    const std::vector<SheetBlock>& all() const { return blocks_; }

private:
    SheetBlocks& add(SheetBlock block) {
        blocks_.push_back(std::move(block));
        return *this;
    }
    SheetBlocks& add_text(TextKind kind, std::string_view text) {
        return add(TextBlock{kind, std::string(text)});
    }

    std::vector<SheetBlock> blocks_;
};

// All text is escaped.
std::string html_of(const SheetBlocks& sheet);

}  // namespace farwater::reports
