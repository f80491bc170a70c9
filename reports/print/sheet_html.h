// HTML of a sheet, piece by piece; every text is escaped here.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace farwater::reports {

class SheetHtml {
public:
    using Cells = std::vector<std::string>;

    SheetHtml& heading(std::string_view text);
    SheetHtml& subheading(std::string_view text);
    SheetHtml& paragraph(std::string_view text);
    SheetHtml& statement(std::string_view text);  // a sentence that carries the sheet
    SheetHtml& note(std::string_view text);
    SheetHtml& list(const std::vector<std::string>& items);
    // Columns whose header begins with '#' hold numbers, with '_' are filled in by hand and get
    // room; the sign is left out.
    SheetHtml& table(const Cells& headers, const std::vector<Cells>& rows);
    // A name and its value per row; a value that is empty reads "not recorded" and stands out.
    SheetHtml& facts(const std::vector<std::pair<std::string, std::string>>& rows);
    // The same header with that many empty rows, to be filled in by hand.
    SheetHtml& blank_table(const Cells& headers, std::size_t rows);
    SheetHtml& lines_to_fill(const std::vector<std::string>& names);
    SheetHtml& signatures(const std::vector<std::string>& roles);
    SheetHtml& begin_section(std::string_view id, bool new_page);
    SheetHtml& end_section();
    SheetHtml& element(std::string_view html);  // not escaped: ours

    std::string text() const { return html_; }

private:
    std::string html_;
};

}  // namespace farwater::reports
