#include "reports/public/public_page.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/layer_styles.h"
#include "reports/origin.h"
#include "reports/page/page_shapes.h"
#include "reports/print/sheet_html.h"
#include "reports/print/sheet_page.h"
#include "reports/public/public_tables.h"
#include "reports/text/svg.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

constexpr double public_map_width = 1000.0;
constexpr double public_map_height = 720.0;

constexpr std::string_view public_style = R"(
body { margin: 0 auto; max-width: 1000px; padding: 16px; color: #1d2b33; background: #fbfaf5; font: 15px/1.5 system-ui, "DejaVu Sans", sans-serif; }
h1, h2, h3 { font-family: Georgia, "DejaVu Serif", serif; line-height: 1.2; }
svg { box-sizing: border-box; width: 100%; height: auto; border: 1px solid #1d2b33; background: #fff; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; margin: 0.6rem 0; font-size: 0.9rem; }
th, td { text-align: left; vertical-align: top; padding: 3px 10px 3px 0; border-bottom: 1px solid #c9c4b4; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
.cautions { border: 2px solid #a3123a; padding: 4px 14px; }
.key { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 4px 18px; }
.key svg { width: 28px; height: 16px; vertical-align: -2px; }
footer { font-size: 0.85rem; overflow-wrap: anywhere; }
tr, svg { break-inside: avoid; }
thead { display: table-header-group; }
@page { size: letter; margin: 0.6in; }
@media print {
  body { max-width: none; padding: 0; font-size: 11px; }
  .wide { overflow: visible; }
  table { width: 100%; font-size: 8px; }
  th, td { padding: 2px 4px 2px 0; overflow-wrap: anywhere; }
}
)";

std::string_view fill_of_band(std::string_view band) {
    for (const LayerLook& look : layer_looks()) {
        for (const RowLook& row : look.rows) {
            if (look.layer == "flow_zones" && row.value == band) {
                return row.fill;
            }
        }
    }
    return "#dddddd";
}

std::string zone_path(const FlowZone& zone, const PageFit& fit) {
    const double tolerance_m = 0.4 / fit.units_per_metre();
    std::string path;
    for (const Polygon& part : zone.shape) {
        path += path_data(simplified(part.shell, tolerance_m), fit) + "Z";
        for (const Polyline& hole : part.holes) {
            path += path_data(simplified(hole, tolerance_m), fit) + "Z";
        }
    }
    return path;
}

std::string dot(Point at_page, std::string_view fill, double size) {
    return fmt::format(
        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\" "
        "stroke=\"#fff\"/>\n",
        at_page.x - size / 2, at_page.y - size / 2, size, size, fill);
}

std::string public_map(const Findings& findings) {
    const PageFit fit(extent_of(findings.district), 20.0, 20.0, public_map_width - 40.0,
                      public_map_height - 40.0);
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\">"
        "<title>Ground by the flow that is held</title>\n",
        public_map_width, public_map_height);
    for (const FlowZone& zone : findings.zones->flow) {
        svg += fmt::format("<path d=\"{}\" fill=\"{}\" fill-rule=\"evenodd\"/>\n",
                           zone_path(zone, fit), fill_of_band(flow_bands.at(zone.band).word));
    }
    svg += "<g fill=\"none\" stroke=\"#6f6a5d\" stroke-width=\"0.8\">\n";
    for (const Road& road : findings.district.roads) {
        svg += fmt::format("<path d=\"{}\"/>\n", path_data(road.line, fit));
    }
    svg += "</g>\n";
    for (const supply::CountedSource& counted : findings.water.counted) {
        if (counted.is_for_all()) {
            svg += dot(fit(at(findings.district.sources, counted.source).place), "#0b5c8c", 7.0);
        }
    }
    for (const Station& station : findings.district.stations) {
        svg += dot(fit(station.place), "#1d2b33", 11.0);
    }
    return svg + "</svg>\n";
}

std::string key_item(std::string_view fill, const std::string& words) {
    return fmt::format(
        "<li><svg viewBox=\"0 0 28 16\" aria-hidden=\"true\"><rect width=\"28\" height=\"16\" "
        "fill=\"{}\"/></svg> {}</li>\n",
        fill, escaped(words));
}

std::string public_key(const Findings& findings) {
    std::string html = "<ul class=\"key\">\n";
    for (const FlowZone& zone : findings.zones->flow) {
        const FlowBand& band = flow_bands.at(zone.band);
        html += key_item(fill_of_band(band.word),
                         fmt::format("{}: {} properties", band.legend, zone.parcels));
    }
    return html + key_item("#0b5c8c", "water that counts") + key_item("#1d2b33", "station") +
           "</ul>\n";
}

struct CellText {
    int decimals;
    std::string operator()(std::monostate) const { return ""; }
    std::string operator()(std::int64_t number) const { return std::to_string(number); }
    std::string operator()(double number) const { return fmt::format("{:.{}f}", number, decimals); }
    std::string operator()(bool yes) const { return yes ? "yes" : "no"; }
    std::string operator()(std::string_view text) const { return std::string(text); }
};

void add_whole_table(SheetHtml& html, const io::FeatureTable& table) {
    SheetHtml::Cells headers;
    for (const io::Column& column : table.columns) {
        const bool number =
            column.type == io::ColumnType::integer || column.type == io::ColumnType::real;
        std::string words = column.name;
        std::ranges::replace(words, '_', ' ');
        headers.push_back(number ? "#" + words : words);
    }
    std::vector<SheetHtml::Cells> rows;
    io::Row row;
    for (std::size_t index = 0; index < table.rows; ++index) {
        row.values.assign(table.columns.size(), io::Value{});
        table.fill(index, row);
        SheetHtml::Cells& cells = rows.emplace_back();
        for (std::size_t i = 0; i < row.values.size(); ++i) {
            cells.push_back(std::visit(CellText{table.columns[i].decimals}, row.values[i]));
        }
    }
    html.heading(table.title).paragraph(table.description);
    html.element("<div class=\"wide\" tabindex=\"0\">").table(headers, rows).element("</div>");
}

std::string ground_section(const Findings& findings, std::size_t parcels_left_out) {
    SheetHtml html;
    html.heading("Ground by the flow that is held");
    if (findings.zones->left_out) {
        html.paragraph(fmt::format("Left out: more than {} parcels.", most_parcels_in_zones));
        return html.text();
    }
    html.element(public_map(findings)).element(public_key(findings));
    html.note(fmt::format(
        "Cautious flow in gallons per minute, worst season and period of each property. {} "
        "properties stand on ground that is not shown, since fewer than {} hang together there.",
        parcels_left_out, least_parcels_for_public));
    return html.text();
}

std::string public_headline(const Findings& findings) {
    const Headline headline = headline_of(findings);
    SheetHtml html;
    html.list(headline_sentences(headline, findings.district.tanker_word));
    html.note(travel_time_sentence(findings.district));
    if (const std::string what_if = what_if_sentence(findings.district); !what_if.empty()) {
        html.statement(what_if);
    }
    if (const std::string months = months_sentence(findings.district); !months.empty()) {
        html.statement(months);
    }
    return html.text();
}

std::string public_tables_section(const Findings& findings) {
    SheetHtml html;
    for (const io::FeatureTable& table : public_tables(findings)) {
        if (table.name != "dump_sites" && table.name != "assumptions") {
            add_whole_table(html, table);
        }
    }
    html.note("Dump sites and every assumption: tables/coverage.xlsx beside this page.");
    html.heading("Not modelled");
    std::vector<std::string> items;
    for (const std::string_view what : not_modelled(findings.district)) {
        items.emplace_back(what);
    }
    return html.list(items).text();
}

}  // namespace

std::string public_page(const Findings& findings, const RunRecord& record,
                        std::size_t parcels_left_out) {
    const std::string name =
        escaped(findings.district.name.empty() ? "District" : findings.district.name);
    std::string html = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
        "'unsafe-inline'\"/>\n<meta name=\"viewport\" content=\"width=device-width, "
        "initial-scale=1\"/>\n<title>{0}: water by tanker shuttle</title>\n<style>{1}</style>\n"
        "</head>\n<body>\n<header><h1>{0}: water by tanker shuttle</h1></header>\n",
        name, public_style);
    html += caution_box() + fmt::format("<main>\n<p>{}</p>\n", escaped(public_sentence()));
    html += public_headline(findings) + ground_section(findings, parcels_left_out) +
            public_tables_section(findings);
    html += fmt::format("</main>\n<footer><p>{}.</p></footer>\n</body>\n</html>\n",
                        escaped(origin_words(findings.district, record)));
    return html;
}

}  // namespace farwater::reports
