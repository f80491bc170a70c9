#include "reports/print/sheet_html.h"

#include <fmt/format.h>

#include "reports/print/sheet_table.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

// "2026-05-31", which must not break at its hyphens.
bool is_day(std::string_view cell) {
    return cell.size() == 10 && cell[4] == '-' && cell[7] == '-' &&
           cell.find_first_not_of("0123456789-") == std::string_view::npos;
}

std::string_view class_of(std::string_view header, std::string_view cell) {
    return is_number_column(header) ? " class=\"number\"" : is_day(cell) ? " class=\"day\"" : "";
}

std::string head_of(const SheetHtml::Cells& headers) {
    std::string html = "<thead><tr>";
    for (const std::string_view header : headers) {
        html += fmt::format("<th{} scope=\"col\">{}</th>",
                            is_number_column(header)    ? " class=\"number\""
                            : is_column_by_hand(header) ? " class=\"by-hand\""
                                                        : "",
                            escaped(shown_header(header)));
    }
    return html + "</tr></thead>\n";
}

}  // namespace

SheetHtml& SheetHtml::heading(std::string_view text) {
    html_ += fmt::format("<h2>{}</h2>\n", escaped(text));
    return *this;
}

SheetHtml& SheetHtml::subheading(std::string_view text) {
    html_ += fmt::format("<h3>{}</h3>\n", escaped(text));
    return *this;
}

SheetHtml& SheetHtml::paragraph(std::string_view text) {
    html_ += fmt::format("<p>{}</p>\n", escaped(text));
    return *this;
}

SheetHtml& SheetHtml::statement(std::string_view text) {
    html_ += fmt::format("<p class=\"statement\">{}</p>\n", escaped(text));
    return *this;
}

SheetHtml& SheetHtml::note(std::string_view text) {
    html_ += fmt::format("<p class=\"small\">{}</p>\n", escaped(text));
    return *this;
}

SheetHtml& SheetHtml::list(const std::vector<std::string>& items) {
    html_ += "<ul>\n";
    for (const std::string& item : items) {
        html_ += fmt::format("<li>{}</li>\n", escaped(item));
    }
    html_ += "</ul>\n";
    return *this;
}

// On a phone a table may be wider than the screen, and is then moved by keys too.
SheetHtml& SheetHtml::table(const Cells& headers, const std::vector<Cells>& rows) {
    html_ += "<table tabindex=\"0\">\n" + head_of(headers) + "<tbody>\n";
    for (const Cells& row : rows) {
        html_ += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            html_ += fmt::format("<td{}>{}</td>", class_of(headers[i], row[i]), escaped(row[i]));
        }
        html_ += "</tr>\n";
    }
    html_ += "</tbody></table>\n";
    return *this;
}

SheetHtml& SheetHtml::facts(const std::vector<std::pair<std::string, std::string>>& rows) {
    html_ += "<table class=\"facts\"><tbody>\n";
    for (const auto& [name, value] : rows) {
        html_ += fmt::format(
            "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(name),
            value.empty() ? "<span class=\"lacks\">not recorded</span>" : escaped(value));
    }
    html_ += "</tbody></table>\n";
    return *this;
}

SheetHtml& SheetHtml::blank_table(const Cells& headers, std::size_t rows) {
    html_ += "<table class=\"blank\" tabindex=\"0\">\n" + head_of(headers) + "<tbody>\n";
    for (std::size_t row = 0; row < rows; ++row) {
        html_ += "<tr>";
        for (std::size_t i = 0; i < headers.size(); ++i) {
            html_ += "<td>&#160;</td>";
        }
        html_ += "</tr>\n";
    }
    html_ += "</tbody></table>\n";
    return *this;
}

SheetHtml& SheetHtml::lines_to_fill(const std::vector<std::string>& names) {
    html_ += "<div class=\"fill\">\n";
    for (const std::string& name : names) {
        html_ += fmt::format("<p><span>{}</span><i></i></p>\n", escaped(name));
    }
    html_ += "</div>\n";
    return *this;
}

SheetHtml& SheetHtml::signatures(const std::vector<std::string>& roles) {
    html_ += "<div class=\"signatures\">\n";
    for (const std::string& role : roles) {
        html_ +=
            fmt::format("<p><i></i><span>{}, name, signature and date</span></p>\n", escaped(role));
    }
    html_ += "</div>\n";
    return *this;
}

SheetHtml& SheetHtml::begin_section(std::string_view id, bool new_page) {
    html_ +=
        fmt::format("<section id=\"{}\"{}>\n", escaped(id), new_page ? " class=\"new-page\"" : "");
    return *this;
}

SheetHtml& SheetHtml::end_section() {
    html_ += "</section>\n";
    return *this;
}

SheetHtml& SheetHtml::element(std::string_view html) {
    html_ += html;
    return *this;
}

}  // namespace farwater::reports
