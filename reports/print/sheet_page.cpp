#include "reports/print/sheet_page.h"

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr std::string_view style_of_sheets = R"(
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
.block { display: grid; grid-template-columns: minmax(40%, 1fr) auto; border: 2px solid var(--ink); background: #fbfaf5; }
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
.signatures { display: grid; grid-template-columns: 1fr 1fr; gap: 10px 28px; margin-top: 1.2rem; break-inside: avoid; break-before: avoid; }
.signatures i { height: 2.4rem; }
.signatures span { font-size: 0.86rem; color: var(--soft); }
svg { display: block; width: 100%; height: auto; border: 1px solid var(--ink); margin: 0.6rem 0; }
footer { margin: 10px 2px; }
tr, svg, .statement { break-inside: avoid; }
thead { display: table-header-group; }
@media screen and (max-width: 700px) {
  main { padding: 10px; }
  table { display: block; overflow-x: auto; }
  .block, .fill, .signatures { grid-template-columns: 1fr; }
  .block > div + div { border-left: 0; border-top: 1px solid var(--ink); }
}
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

}  // namespace

std::string_view sheet_style() { return style_of_sheets; }

std::string caution_box(std::string_view first) {
    std::string html = "<aside class=\"cautions\" aria-label=\"Cautions\"><ul>\n";
    if (!first.empty()) {
        html += fmt::format("<li><b>{}</b></li>\n", escaped(first));
    }
    for (const std::string_view caution : cautions) {
        html += fmt::format("<li>{}</li>\n", escaped(caution));
    }
    return html + "</ul></aside>\n";
}

std::string html_document(std::string_view title, std::string_view name,
                          std::string_view more_style, std::string_view body) {
    return fmt::format(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>"
        "\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, "
        "initial-scale=1\"/>\n<meta http-equiv=\"Content-Security-Policy\" "
        "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
        "<title>{}: {}</title>\n<style>{}{}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        escaped(title), escaped(name), sheet_style(), more_style, body);
}

std::string sheet_document(const DocumentHead& head, const SheetBlocks& sheet,
                           std::string_view first_caution, std::string_view more_style) {
    const std::string block = fmt::format(
        "<header class=\"block\">\n<div><p>{}</p><h1>{}</h1></div>\n<div><p>{}</p></div>\n"
        "</header>\n",
        escaped(head.name), escaped(head.title), escaped(head.origin));
    return html_document(
        head.title, head.name, more_style,
        block + caution_box(first_caution) + "<main>\n" + html_of(sheet) + "</main>\n");
}

}  // namespace farwater::reports
