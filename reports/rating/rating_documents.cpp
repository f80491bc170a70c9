#include "reports/rating/rating_documents.h"

#include <utility>

#include <fmt/format.h>

#include "reports/origin.h"
#include "reports/print/sheet_page.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/title_words.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

std::string navigation(const std::vector<RatingSheet>& sheets, std::size_t current) {
    std::string html = "<nav aria-label=\"Sheets\"><ol>\n";
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        html += fmt::format("<li><a href=\"{}\"{}>{}. {}</a></li>\n", sheets[i].file,
                            i == current ? " aria-current=\"page\"" : "", i + 1, sheets[i].title);
    }
    return html +
           fmt::format("<li><a href=\"{}\">All as PDF</a></li>\n</ol></nav>\n", rating_pdf_file);
}

std::string title_block(const TitleWords& words, const std::string& navigation) {
    std::string facts;
    for (const std::string& fact : words.facts) {
        facts += fmt::format("<p>{}</p>", escaped(fact));
    }
    return fmt::format(
        "<header class=\"block\">\n<div><p>{}</p><h1>{}</h1><p>{}</p></div>\n<div>{}</div>\n"
        "{}</header>\n",
        escaped(words.district), escaped(words.title), escaped(words.evidence), facts, navigation);
}

std::string sheet_closing(const RunRecord& record) {
    return fmt::format("<footer><p class=\"hash\">{}</p></footer>\n",
                       escaped(closing_words(record)));
}

// At the foot of every printed page, for sheets that are handed out one by one.
std::string page_foot(const Findings& findings, const RunRecord& record) {
    std::string from = origin_words(findings.district, record);
    std::erase_if(from, [](char c) { return c == '"' || c == '\\' || c == '<' || c < ' '; });
    return fmt::format(
        "@page {{ @bottom-left {{ content: \"{}\\A {}\"; font: 8px sans-serif; white-space: pre; "
        "}} "
        "@bottom-right {{ content: \"page \" counter(page); font: 8px sans-serif; }} }}\n",
        foot_words(findings), from);
}

std::string page_of(const Findings& findings, const RunRecord& record,
                    const std::vector<RatingSheet>& sheets, std::size_t index) {
    const RatingSheet& sheet = sheets[index];
    const TitleWords words = title_words(findings, record, sheet.title, index + 1, sheets.size());
    return html_document(sheet.title, findings.district.name, page_foot(findings, record),
                         title_block(words, navigation(sheets, index)) +
                             caution_box(what_if_words(findings)) + "<main>\n" +
                             html_of(sheet.blocks) + "</main>\n" + sheet_closing(record));
}

}  // namespace

std::vector<RatingSheet> rating_sheets(const Findings& findings, const RunRecord& record) {
    std::vector<RatingSheet> sheets;
    const auto add = [&](std::string_view file, std::string_view title, SheetBlocks blocks) {
        sheets.push_back({file, title, std::move(blocks)});
    };
    add("coverage.html", "Coverage statement", coverage_sheet(findings));
    add("sources.html", "Source register", source_sheets(findings, record));
    add("fleet.html", "Fleet register", fleet_sheet(findings));
    add("claims.html", "Claim sheet", claim_sheet(findings));
    add("calculations.html", "Calculation sheets", calculation_sheets(findings));
    add("forms.html", "Test and drill forms", form_sheets(findings));
    add("missing.html", "Missing evidence", missing_sheet(findings));
    return sheets;
}

std::vector<RatingDocument> rating_documents(const Findings& findings, const RunRecord& record,
                                             const std::vector<RatingSheet>& sheets) {
    std::vector<RatingDocument> documents;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        documents.push_back({std::string(sheets[i].file), page_of(findings, record, sheets, i)});
    }
    return documents;
}

}  // namespace farwater::reports
