#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "reports/rating/rating_sheets.h"
#include "reports/svg.h"

namespace farwater::reports {
namespace {

constexpr double map_width = 1000.0;
constexpr double map_height = 700.0;
constexpr double key_left = 790.0;
constexpr std::size_t most_drawn = 50000;

// Colours of the diverging PuOr ramp (ColorBrewer); each category has a shape of its own, too.
struct CategoryLook {
    rating::Category category;
    std::string_view symbol;  // centred on 0,0
    std::string_view meaning;
};

constexpr std::array category_looks{
    CategoryLook{rating::Category::near_with_water, R"(<circle r="3" fill="#542788"/>)",
                 "near, with water"},
    CategoryLook{
        rating::Category::near_without_water,
        R"(<path d="M0 -3.6L3.6 2.9L-3.6 2.9Z" fill="#f1a340" stroke="#7f3b08" stroke-width=".6"/>)",
        "near, without"},
    CategoryLook{
        rating::Category::far_with_water,
        R"(<path d="M0 -3.6L3.6 0L0 3.6L-3.6 0Z" fill="#998ec3" stroke="#542788" stroke-width=".6"/>)",
        "beyond, with water"},
    CategoryLook{rating::Category::otherwise,
                 R"(<path d="M-3 -3L3 3M-3 3L3 -3" stroke="#7f3b08" stroke-width="1.6"/>)",
                 "all others"},
};

constexpr std::string_view counting_symbol =
    R"(<circle r="5" fill="#1f78b4" stroke="#fff" stroke-width=".8"/>)";
constexpr std::string_view lacking_symbol =
    R"(<circle r="4.4" fill="#fff" stroke="#1f78b4" stroke-width="1.6"/>)";
constexpr std::string_view station_symbol =
    R"(<path d="M-6 5V-2L0 -7L6 -2V5Z" fill="#222" stroke="#fff" stroke-width=".8"/>)";

std::string placed(std::string_view symbol, Point at_page) {
    return fmt::format("<g transform=\"translate({:.1f} {:.1f})\">{}</g>\n", at_page.x, at_page.y,
                       symbol);
}

std::string drawn_roads(const Findings& findings, const PageFit& fit) {
    std::string svg =
        "<g fill=\"none\" stroke=\"#b3ac9d\" stroke-width=\"1.3\" stroke-linejoin=\"round\">\n";
    for (const Road& road : findings.district.roads) {
        svg += fmt::format("<path d=\"{}\"/>\n", path_data(road.line, fit));
    }
    return svg + "</g>\n";
}

// Properties without water last, so that they are never hidden.
std::string drawn_places(const Findings& findings, const PageFit& fit) {
    std::string svg;
    for (const CategoryLook& look : category_looks) {
        for (std::size_t row = 0; row < findings.parcels(); ++row) {
            if (findings.rating->places[row].category == look.category) {
                svg += placed(look.symbol, fit(findings.district.parcels[row].house));
            }
        }
    }
    return svg;
}

// Ids beside their places; one that would cover another is left out, for the register has it.
class Labels {
public:
    std::string of(Point at_page, std::string_view text) {
        constexpr std::size_t most = 500;
        const Box box = room_of(at_page, text);
        const auto covers = [&](const Box& other) {
            return box.low.x < other.high.x && other.low.x < box.high.x &&
                   box.low.y < other.high.y && other.low.y < box.high.y;
        };
        if (taken_.size() >= most || std::ranges::any_of(taken_, covers)) {
            return {};
        }
        taken_.push_back(box);
        return fmt::format(
            "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"10\" fill=\"#0b3c5d\" "
            "stroke=\"#fff\" stroke-width=\"2.5\" paint-order=\"stroke\">{}</text>\n",
            at_page.x + 6.0, at_page.y - 4.0, escaped(text));
    }

private:
    static Box room_of(Point at_page, std::string_view text) {
        constexpr double letter = 6.2;
        Box box;
        box.low = {at_page.x + 6.0, at_page.y - 13.0};
        box.high = {at_page.x + 6.0 + letter * static_cast<double>(text.size()), at_page.y - 3.0};
        return box;
    }

    std::vector<Box> taken_;
};

// A ring as far as the terms' hose, straight; hose along roads reaches less.
std::string drawn_sources(const Findings& findings, const PageFit& fit) {
    const double ring = in_metres(findings.rating->terms.hose) * fit.units_per_metre();
    std::string svg;
    Labels labels;
    for (const Station& station : findings.district.stations) {
        svg +=
            placed(station_symbol, fit(station.place)) + labels.of(fit(station.place), station.id);
    }
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const WaterSource& source = findings.district.sources[i];
        const rating::SourceVerdict& verdict = findings.rating->sources[i];
        if (!verdict.is_candidate) {
            continue;
        }
        const Point place = fit(source.place);
        if (verdict.creditable()) {
            svg += fmt::format(
                "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"none\" "
                "stroke=\"#1f78b4\" stroke-dasharray=\"4 3\"/>\n",
                place.x, place.y, ring);
        }
        svg += placed(verdict.creditable() ? counting_symbol : lacking_symbol, place);
        svg += labels.of(place, source.id);
    }
    return svg;
}

std::string key_row(double& y, std::string_view symbol, std::string_view text) {
    y += 22.0;
    return placed(symbol, {key_left + 8.0, y - 4.0}) +
           fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n", key_left + 24.0, y,
                       escaped(text));
}

std::string title_row(double& y, std::string_view text) {
    y += 30.0;
    return fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\" font-weight=\"bold\">{}</text>\n", key_left,
                       y, escaped(text));
}

std::string key_of(const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    double y = 20.0;
    std::string svg = title_row(y, "Category");
    for (const CategoryLook& look : category_looks) {
        const std::string word = std::string(category_word(terms, look.category));
        svg += key_row(y, look.symbol, word + ": " + std::string(look.meaning));
    }
    svg += title_row(y, "Offered sources");
    svg += key_row(y, counting_symbol, "counts");
    svg += key_row(y, lacking_symbol, "lacks evidence");
    svg += key_row(y, R"(<circle r="7" fill="none" stroke="#1f78b4" stroke-dasharray="4 3"/>)",
                   fmt::format("{} ft, straight", in_feet(terms.hose)));
    svg += title_row(y, "Stations");
    return svg + key_row(y, station_symbol, "with its id");
}

std::string miles_bar(const PageFit& fit) {
    double length = 0.25;
    for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
        length = step * metres_per_mile * fit.units_per_metre() <= 170.0 ? step : length;
    }
    const double units = length * metres_per_mile * fit.units_per_metre();
    return fmt::format(
        "<path d=\"M{0:.0f} 640v6h{1:.1f}v-6\" fill=\"none\" stroke=\"#222\"/><text x=\"{0:.0f}\" "
        "y=\"663\">{2} mi</text>\n<path d=\"M{3:.0f} 610v-24l-5 9m5 -9l5 9\" fill=\"none\" "
        "stroke=\"#222\"/><text x=\"{3:.0f}\" y=\"624\" text-anchor=\"middle\">N</text>\n",
        key_left, units, length, key_left + 12.0);
}

}  // namespace

std::string coverage_map(const Findings& findings) {
    const PageFit fit(extent_of(findings.district), 15.0, 15.0, key_left - 40.0, map_height - 30.0);
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" "
        "font-family=\"sans-serif\" font-size=\"13\" role=\"img\">\n<title>Rating categories of "
        "{}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fbfaf7\"/>\n",
        map_width, map_height, escaped(findings.district.name));
    svg += drawn_roads(findings, fit);
    svg += findings.parcels() <= most_drawn ? drawn_places(findings, fit) : std::string();
    return svg + drawn_sources(findings, fit) + key_of(findings) + miles_bar(fit) + "</svg>\n";
}

}  // namespace farwater::reports
