#include "reports/map_page.h"

#include <map>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/gains/gain_pages.h"
#include "reports/headline.h"
#include "reports/origin.h"
#include "reports/page/packed_bytes.h"
#include "reports/page/page_tables.h"
#include "reports/page/page_text.h"
#include "reports/text/number_words.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

std::string bytes_of_hex(std::string_view digits) {
    const auto value = [](char digit) { return digit <= '9' ? digit - '0' : digit - 'a' + 10; };
    std::string bytes;
    for (std::size_t i = 0; i + 1 < digits.size(); i += 2) {
        bytes += static_cast<char>(16 * value(digits[i]) + value(digits[i + 1]));
    }
    return bytes;
}

// W3C Content Security Policy Level 3: nothing is loaded, and what runs is known by its hash.
std::string policy() {
    return fmt::format(
        "default-src 'none'; script-src 'sha256-{}'; style-src 'sha256-{}'; base-uri 'none'; "
        "form-action 'none'",
        base64(bytes_of_hex(page_script_sha256())), base64(bytes_of_hex(page_style_sha256())));
}

std::string district_name(const MapPage& page) {
    const std::string& name = page.findings.district.name;
    return escaped(name.empty() ? "District" : name);
}

std::string data_date(const MapPage& page) {
    const auto date = page.findings.district.data_date;
    return date ? day(date) : "not given";
}

template <class Texts>
std::string list_items(const Texts& texts) {
    std::string html;
    for (const auto& text : texts) {
        html += fmt::format("<li>{}</li>\n", escaped(text));
    }
    return html;
}

std::string headline_items(const MapPage& page) {
    const Headline headline = headline_of(page.findings);
    std::vector<std::string> sentences =
        headline_sentences(headline, page.findings.district.tanker_word);
    if (const std::string months = months_sentence(page.findings.district); !months.empty()) {
        sentences.insert(sentences.begin(), months);
    }
    sentences.push_back(
        fmt::format("{} parcels without a building stand in no percentage", headline.no_building));
    sentences.push_back(travel_time_sentence(page.findings.district));
    return list_items(sentences);
}

std::string what_is_drawn(const MapPage& page) {
    return page.areas != nullptr
               ? "Borders are simplified to about 3 ft for this page; supply.gpkg has them exactly."
               : fmt::format(
                     "More than {} parcels: this page draws a point for each house; "
                     "supply.gpkg has the shapes. Zones are left out.",
                     most_parcels_as_areas);
}

// Empty without proposals.
std::string gain_curve_figure(const MapPage& page) {
    const ProposalFindings* const next = page.findings.next_source;
    return next == nullptr || next->proposals.empty()
               ? ""
               : "<figure class=\"gain-curve\">" + svg_of(proposal_curve(*next)) +
                     "<figcaption>What they gain together, one more at a time: gpm of planned "
                     "flow, over all parcels.</figcaption></figure>\n";
}

void write_data(const MapPage& page, const std::function<void(std::string_view)>& sink) {
    for (const PageTable& table : page_tables(page.findings)) {
        sink(fmt::format("<script type=\"text/plain\" id=\"data-{}\">", table.name));
        sink(base64(table.packed(page)));
        sink("</script>\n");
    }
}

using Filling = std::function<void(const MapPage&, const std::function<void(std::string_view)>&)>;

Filling filling(std::string (*text)(const MapPage&)) {
    return [text](const MapPage& page, const std::function<void(std::string_view)>& sink) {
        sink(text(page));
    };
}

// What goes in where the template has {{name}}.
std::map<std::string_view, Filling> fillings() {
    return {
        {"policy", filling([](const MapPage&) { return policy(); })},
        {"district", filling(district_name)},
        {"what_if", filling([](const MapPage& page) {
             const std::string what_if = what_if_sentence(page.findings.district);
             return what_if.empty() ? "" : "<p><b>" + escaped(what_if) + "</b></p>";
         })},
        {"data_date", filling(data_date)},
        {"program",
         filling([](const MapPage& page) { return escaped(recorded(page.record, "program")); })},
        {"district_file", filling([](const MapPage& page) {
             return escaped(recorded(page.record, "district_file"));
         })},
        {"district_sha256", filling([](const MapPage& page) {
             return escaped(recorded(page.record, "district_file_sha256"));
         })},
        {"headline", filling(headline_items)},
        {"cautions", filling([](const MapPage&) { return list_items(cautions); })},
        {"not_modelled", filling([](const MapPage& page) {
             return list_items(not_modelled(page.findings.district));
         })},
        {"gain_curve", filling(gain_curve_figure)},
        {"what_is_drawn", filling(what_is_drawn)},
        {"style", filling([](const MapPage&) { return std::string(page_style()); })},
        {"script", filling([](const MapPage&) { return std::string(page_script()); })},
        {"data", write_data},
    };
}

}  // namespace

void write_map_page(const MapPage& page, const std::function<void(std::string_view)>& sink) {
    const std::map<std::string_view, Filling> known = fillings();
    std::string_view html = page_html();
    for (std::size_t open = html.find("{{"); open != std::string_view::npos;
         open = html.find("{{")) {
        const std::size_t close = html.find("}}", open);
        sink(html.substr(0, open));
        known.at(html.substr(open + 2, close - open - 2))(page, sink);
        html.remove_prefix(close + 2);
    }
    sink(html);
}

}  // namespace farwater::reports
