#include "reports/rating/rating_documents.h"

#include <utility>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/title_words.h"
#include "reports/svg.h"

namespace farwater::reports {
namespace {

constexpr std::string_view sheet_style = R"(
:root { --ink: #1d2b33; --soft: #4d5a61; --fine: #c9c4b4; --mark: #a3123a; --link: #0b5c8c; }
* { box-sizing: border-box; }
html { color: var(--ink); background: #f1eee3; font: 14px/1.45 system-ui, "Segoe UI", "DejaVu Sans", sans-serif; }
body { margin: 0 auto; max-width: 1080px; padding: 12px; }
h1, h2, h3 { font-family: Georgia, "DejaVu Serif", serif; line-height: 1.2; margin: 0; break-after: avoid; }
h1 { font-size: 1.6rem; }
h2 { font-size: 1.3rem; margin-top: 1.4rem; border-top: 2px solid var(--ink); padding-top: 0.5rem; }
h3 { font-size: 1.05rem; margin-top: 1rem; }
section > h2:first-child, main > h2:first-child { margin-top: 0; border-top: 0; padding-top: 0; }
p { margin: 0.4rem 0; }
a { color: var(--link); }
.statement { font: 1.15rem/1.4 Georgia, "DejaVu Serif", serif; max-width: 46rem; }
.small, footer { font-size: 0.86rem; color: var(--soft); }
.hash { overflow-wrap: anywhere; }
.lacks { color: var(--mark); font-style: italic; }
.block { display: grid; grid-template-columns: 1fr auto; border: 2px solid var(--ink); background: #fbfaf5; }
.block > div { padding: 8px 14px; }
.block > div + div { border-left: 1px solid var(--ink); font-size: 0.86rem; }
.block p { margin: 0; }
.block nav { grid-column: 1 / -1; border-top: 1px solid var(--ink); }
.block ol { display: flex; flex-wrap: wrap; list-style: none; margin: 0; padding: 0; }
.block li { border-right: 1px solid var(--fine); }
.block nav a { display: block; padding: 6px 12px; color: var(--ink); text-decoration: none; }
.block nav a:hover { text-decoration: underline; }
.block nav a[aria-current] { background: var(--ink); color: #fff; }
.cautions { border: 2px solid var(--mark); background: #fff; padding: 8px 14px; margin: 10px 0; }
.cautions ul { margin: 0; padding-left: 1.2rem; }
main { border: 2px solid var(--ink); background: #fff; padding: 16px 20px; }
table { border-collapse: collapse; width: 100%; margin: 0.6rem 0; font-size: 0.92rem; }
th { text-align: left; vertical-align: bottom; border-bottom: 1.5px solid var(--ink); padding: 4px 8px; font-weight: 600; }
td { border-bottom: 1px solid var(--fine); padding: 4px 8px; vertical-align: top; }
td { overflow-wrap: break-word; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.day { white-space: nowrap; }
.by-hand { width: 24%; }
.facts th { border-bottom: 1px solid var(--fine); vertical-align: top; width: 15rem; }
.blank td, .blank th { border: 1px solid var(--ink); }
.blank td { height: 1.9rem; }
.fill { display: grid; grid-template-columns: 1fr 1fr; column-gap: 28px; }
.fill p { display: flex; align-items: flex-end; min-height: 2rem; gap: 8px; }
.fill i, .signatures i { border-bottom: 1px solid var(--ink); flex: 1; display: block; }
.signatures { display: grid; grid-template-columns: 1fr 1fr; gap: 10px 28px; margin-top: 1.2rem; break-inside: avoid; }
.signatures i { height: 2.4rem; }
.signatures span { font-size: 0.86rem; color: var(--soft); }
svg { display: block; width: 100%; height: auto; border: 1px solid var(--ink); margin: 0.6rem 0; }
footer { margin: 10px 2px; }
tr, svg, .statement { break-inside: avoid; }
thead { display: table-header-group; }
@page { size: letter; margin: 0.6in 0.6in 0.75in; }
@media print {
  html { background: #fff; font-size: 10.5px; }
  body { max-width: none; padding: 0; }
  main { border: 0; padding: 8px 0; }
  .block { background: #fff; }
  .block nav { display: none; }
  td, th { padding: 2px 6px; }
  table { margin: 0.3rem 0; }
  h3 { margin-top: 0.6rem; }
  .signatures { margin-top: 0.6rem; }
  .new-page { break-before: page; }
  .block, .cautions { break-inside: avoid; }
}
)";

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

// What must stand on every sheet.
std::string caution_box() {
    std::string html = "<div class=\"cautions\" role=\"note\"><ul>\n";
    for (const std::string_view caution : cautions) {
        html += fmt::format("<li>{}</li>\n", escaped(caution));
    }
    return html + "</ul></div>\n";
}

std::string sheet_closing(const RunRecord& record) {
    return fmt::format("<footer><p class=\"hash\">{}</p></footer>\n",
                       escaped(closing_words(record)));
}

// At the foot of every printed page, for sheets that are handed out one by one.
std::string page_foot(const Findings& findings, const RunRecord& record) {
    std::string from = foot_origin(findings, record);
    std::erase_if(from, [](char c) { return c == '"' || c == '\\' || c == '<' || c < ' '; });
    return fmt::format(
        "@page {{ @bottom-left {{ content: \"{}\\A {}\"; font: 8px sans-serif; white-space: pre; "
        "}} "
        "@bottom-right {{ content: \"page \" counter(page); font: 8px sans-serif; }} }}\n",
        foot_caution, from);
}

std::string page_of(const Findings& findings, const RunRecord& record,
                    const std::vector<RatingSheet>& sheets, std::size_t index) {
    const RatingSheet& sheet = sheets[index];
    const TitleWords words = title_words(findings, record, sheet.title, index + 1, sheets.size());
    return fmt::format(
               "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>"
               "\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, "
               "initial-scale=1\"/>\n<meta http-equiv=\"Content-Security-Policy\" "
               "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
               "<title>{}: {}</title>\n<style>",
               sheet.title, escaped(findings.district.name)) +
           std::string(sheet_style) + page_foot(findings, record) + "</style>\n</head>\n<body>\n" +
           title_block(words, navigation(sheets, index)) + caution_box() + "<main>\n" +
           html_of(sheet.blocks) + "</main>\n" + sheet_closing(record) + "</body>\n</html>\n";
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
