#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "reports/cards/address_index.h"
#include "reports/cards/card_book.h"
#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/cards/draw_map.h"
#include "reports/cards/index_columns.h"
#include "reports/origin.h"
#include "reports/page/packed_bytes.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr std::string_view style = R"(
* { box-sizing: border-box; }
html { color: #000; background: #e4e4e4; font: 14px/1.35 "DejaVu Sans", system-ui, sans-serif; }
body { margin: 0 auto; max-width: 60rem; padding: 8px; }
article, header, nav.index { background: #fff; border: 1px solid #000; padding: 14px 16px; margin: 0 0 14px; }
h1 { font-size: 1.4rem; margin: 0 0 4px; }
h2 { font-size: 1.25rem; margin: 0; overflow-wrap: anywhere; }
h3 { font-size: 0.86rem; color: #fff; background: #000; margin: 12px 0 4px; padding: 2px 6px; break-after: avoid; }
p { margin: 2px 0; overflow-wrap: anywhere; }
p, span, td, th, h1, h2, h3, b { unicode-bidi: isolate; }
a { color: #000; }
.head { display: grid; grid-template-columns: auto 1fr; gap: 10px; }
.badge { background: #000; color: #fff; text-align: center; padding: 4px 10px; min-width: 4.6rem; }
.badge small { display: block; font-size: 0.66rem; font-weight: bold; }
.badge b { font-size: 2rem; line-height: 1.1; overflow-wrap: anywhere; }
.numbers { display: grid; grid-template-columns: repeat(auto-fit, minmax(8.4rem, 1fr)); border: 1px solid #000; margin: 10px 0; }
.numbers div { border: 1px solid #000; padding: 2px 6px; }
.numbers div:first-child { border-width: 3px; }
.numbers small { display: block; font-size: 0.74rem; }
.numbers small:first-child { font-weight: bold; }
.numbers b { font-size: 1.7rem; line-height: 1.15; }
.maps { display: grid; grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); gap: 10px; }
.maps img { width: 100%; height: auto; display: block; }
.parts { columns: 2; column-gap: 18px; }
.parts section:first-child h3 { margin-top: 6px; }
table { border-collapse: collapse; width: 100%; margin: 2px 0; font-size: 0.9rem; }
.wide { overflow-x: auto; }
.wide table { min-width: 36rem; }
th, td { text-align: left; vertical-align: bottom; border-bottom: 1px solid #777; padding: 1px 6px 1px 0; overflow-wrap: anywhere; }
thead th { border-bottom: 1.5px solid #000; }
.number { text-align: right; white-space: nowrap; }
.hand { border-bottom: 1px solid #000; min-width: 5rem; height: 1.7rem; }
.fill { display: flex; gap: 14px; }
.fill p { flex: 1; display: flex; align-items: flex-end; min-height: 1.7rem; gap: 6px; }
.fill i { flex: 1; min-width: 3rem; border-bottom: 1px solid #000; }
.index div { columns: 3 13rem; column-gap: 18px; }
.index section { break-inside: avoid-column; }
.index h3 { background: none; color: #000; padding: 0; margin: 8px 0 0; border-bottom: 1px solid #000; }
.index p { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 10px; border-bottom: 1px solid #bbb; padding-left: 6px; }
.index span { overflow-wrap: break-word; flex: 1; min-width: 50%; }
.index em { flex-basis: 100%; font-style: normal; padding-left: 10px; }
.index b a { text-decoration: none; display: inline-block; min-width: 24px; min-height: 24px; text-align: right; }
footer { font-size: 0.8rem; }
@media (max-width: 640px) { .parts { columns: 1; } article { padding: 8px; } }
@page { size: letter; margin: 0.4in; }
@media print {
  html { background: #fff; font-size: 9px; }
  body { max-width: none; padding: 0; }
  article { break-before: page; border: 0; padding: 0; margin: 0; }
  header, nav.index { border: 0; padding: 0; }
  .numbers { grid-template-columns: repeat(6, 1fr); margin: 4px 0; }
  .maps { grid-template-columns: 1fr 1fr; }
  h3 { margin: 5px 0 2px; }
  h3, .badge, .numbers { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .parts { columns: 2; }
  .wide table { min-width: 0; }
  .index b a { min-height: 0; }
  .index div { columns: 4; }
}
)";

std::string cell(std::string_view text, bool number, std::string_view tag) {
    if (text == to_fill) {
        return fmt::format("<{0} class=\"hand\"></{0}>", tag);
    }
    return fmt::format("<{0}{1}>{2}</{0}>", tag, number ? " class=\"number\"" : "", escaped(text));
}

std::string html_of(const SheetTable& table) {
    std::string html = "<table>\n";
    if (!table.headers.empty()) {
        html += "<thead><tr>";
        for (const std::string_view header : table.headers) {
            const bool number = is_number_column(header);
            html += fmt::format("<th scope=\"col\"{}>{}</th>", number ? " class=\"number\"" : "",
                                escaped(number ? header.substr(1) : header));
        }
        html += "</tr></thead>\n";
    }
    html += "<tbody>\n";
    for (const auto& row : table.rows) {
        html += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            const bool number = i < table.headers.size() && is_number_column(table.headers[i]);
            html += cell(row[i], number, "td");
        }
        html += "</tr>\n";
    }
    return html + "</tbody></table>\n";
}

std::string html_of(const SheetText& text) {
    return text.bold ? fmt::format("<p><b>{}</b></p>\n", escaped(text.text))
                     : fmt::format("<p>{}</p>\n", escaped(text.text));
}

std::string html_of(const LinesToFill& lines) {
    std::string html = "<div class=\"fill\">";
    for (const std::string& label : lines.labels) {
        html += fmt::format("<p>{} <i></i></p>", escaped(label));
    }
    return html + "</div>\n";
}

std::string html_of(const SheetPart& part) {
    std::string html = fmt::format("<section><h3>{}</h3>\n", escaped(part.heading));
    for (const SheetItem& item : part.items) {
        html += std::visit([](const auto& one) { return html_of(one); }, item);
    }
    return html + "</section>\n";
}

std::string html_of(const BigNumber& number) {
    return fmt::format("<div><small>{}</small><b>{}</b> {}<small>{}</small></div>\n",
                       escaped(number.label), escaped(number.number), escaped(number.unit),
                       escaped(number.note));
}

std::string html_of(const SiteMap& map, std::string_view of) {
    return fmt::format(
        "<img alt=\"Map of {}. {}\" width=\"{:.0f}\" height=\"{:.0f}\" "
        "src=\"data:image/png;base64,{}\">\n",
        escaped(of), escaped(map.title), map_size.width, map_size.height, base64(map_picture(map)));
}

std::string html_of(const PrintedSheet& sheet) {
    std::string html = fmt::format(
        "<article id=\"{}\">\n<div class=\"head\"><p class=\"badge\"><small>{}</small><b>{}</b></p>"
        "<div><h2>{}</h2>\n",
        sheet.anchor, escaped(sheet.kind), escaped(sheet.badge), escaped(sheet.title));
    for (const std::string& line : sheet.lines) {
        html += fmt::format("<p>{}</p>\n", escaped(line));
    }
    html += "</div></div>\n";
    if (!sheet.numbers.empty()) {
        html += "<div class=\"numbers\">\n";
        for (const BigNumber& number : sheet.numbers) {
            html += html_of(number);
        }
        html += "</div>\n";
    }
    html += "<div class=\"maps\">\n";
    for (const SiteMap& map : sheet.maps) {
        html += html_of(map, sheet.title);
    }
    html += "</div>\n";
    std::string columns;
    for (const SheetPart& part : sheet.parts) {
        if (part.column == SheetColumn::both) {
            html += "<div class=\"wide\" tabindex=\"0\">" + html_of(part) + "</div>\n";
        } else {
            columns += html_of(part);
        }
    }
    return html + "<div class=\"parts\">\n" + columns + "</div>\n</article>\n";
}

// Of those with the most places; by card.
std::vector<bool> cards_in_html(const CardBook& book) {
    std::vector<std::size_t> order(book.sites.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::greater<>{},
                             [&](std::size_t card) { return book.sites[card].rows.size(); });
    std::vector<bool> in(book.sites.size(), false);
    for (std::size_t i = 0; i < std::min(order.size(), most_cards_in_html); ++i) {
        in[order[i]] = true;
    }
    return in;
}

std::string html_of(const IndexEntry& entry, const std::vector<bool>& cards) {
    std::string houses;
    for (const std::string& house : entry.houses) {
        houses += (houses.empty() ? "" : ", ") + house;
    }
    std::string to = "<em>" + escaped(entry.instead) + "</em>";
    if (entry.card) {
        to = cards[*entry.card] ? fmt::format("<b><a href=\"#{}\">{}</a></b>",
                                              card_anchor(*entry.card), *entry.card + 1)
                                : fmt::format("<b>{}</b>", *entry.card + 1);
    }
    return fmt::format("<p><span>{}</span>{}</p>\n", escaped(houses), to);
}

void write_index(const CardBook& book, const std::vector<bool>& cards, const ByteSink& sink) {
    sink(
        "<nav class=\"index\" id=\"index\" aria-label=\"Address index\"><h2>Address index: house "
        "number, then card</h2>\n<div>\n");
    for (const IndexRoad& road : address_index(book)) {
        std::string html = fmt::format("<section><h3>{}</h3>\n", escaped(road.name));
        for (const IndexEntry& entry : road.entries) {
            html += html_of(entry, cards);
        }
        sink(html + "</section>\n");
    }
    sink("</div></nav>\n");
}

std::string top_of_page(const CardBook& book) {
    const std::string name = escaped(name_words(book.district().name));
    std::string html = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
        "'unsafe-inline'; img-src data:\">\n<title>Run cards, {0}</title>\n<style>{1}</style>\n"
        "</head>\n<body>\n<header><h1>Run cards, {0}</h1>\n",
        name, style);
    for (const std::string& line : words_before_index(book)) {
        html += fmt::format("<p>{}</p>\n", escaped(line));
    }
    if (book.sites.size() > most_cards_in_html) {
        html += fmt::format(
            "<p>Only the {} cards with the most places stand here; cards.pdf has all.</p>\n",
            most_cards_in_html);
    }
    return html + "</header>\n<main>\n";
}

}  // namespace

void write_cards_html(const CardBook& book, const Work& work, const ByteSink& sink) {
    const RoadsAround roads(book.district());
    const std::vector<bool> cards = cards_in_html(book);
    sink(top_of_page(book));
    write_index(book, cards, sink);
    for (std::size_t card = 0; card < book.sites.size() && !work.stopped(); ++card) {
        if (cards[card]) {
            sink(html_of(card_sheet({book, roads, card})));
        }
    }
    for (const supply::CountedSource* counted : sources_with_page(book)) {
        if (!work.stopped()) {
            sink(html_of(source_sheet(book, roads, *counted)));
        }
    }
    sink(fmt::format("</main>\n<footer><p>{}. {}.</p></footer>\n</body>\n</html>\n",
                     escaped(name_words(book.district().name)),
                     escaped(origin_words(book.district(), book.record))));
}

}  // namespace farwater::reports
