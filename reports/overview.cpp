#include "reports/overview.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "reports/headline.h"
#include "reports/origin.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr double page_width = 1000.0;
constexpr double page_height = 760.0;
constexpr double legend_left = 770.0;

// How a state looks: colour of the diverging PuOr ramp (ColorBrewer) and a shape of its own.
struct StateLook {
    SupplyState state;
    std::string_view symbol;  // content of the symbol, centred on 0,0
    std::string_view legend;
};

constexpr std::array looks{
    StateLook{SupplyState::held, R"(<circle r="3" fill="#542788"/>)", "meets planned flow"},
    StateLook{
        SupplyState::late,
        R"(<path d="M0 -3.6L3.6 0L0 3.6L-3.6 0Z" fill="#998ec3" stroke="#542788" stroke-width=".6"/>)",
        "meets it late"},
    StateLook{
        SupplyState::short_flow,
        R"(<path d="M0 -3.6L3.6 2.9L-3.6 2.9Z" fill="#f1a340" stroke="#7f3b08" stroke-width=".6"/>)",
        "short of it"},
    StateLook{
        SupplyState::tank_only,
        R"(<path d="M-3 -3H3V3H-3Z" fill="#fff" stroke="#b35806" stroke-width="1.1"/><path d="M-3 3L3 -3" stroke="#b35806" stroke-width="1.1"/>)",
        "water on wheels only"},
    StateLook{SupplyState::unreached,
              R"(<path d="M-3 -3L3 3M-3 3L3 -3" stroke="#7f3b08" stroke-width="1.6"/>)",
              "no way there"},
    StateLook{
        SupplyState::unknown,
        R"(<circle r="2.8" fill="#f0f0f0" stroke="#555" stroke-width=".8" stroke-dasharray="1.2 1"/>)",
        "not known"},
};

struct SiteLook {
    std::string_view id;
    std::string_view symbol;
    std::string_view legend;
};

constexpr std::array sites{
    SiteLook{
        "hydrant",
        R"(<path d="M-4 4V-2A4 4 0 0 1 4 -2V4Z" fill="#1f78b4" stroke="#fff" stroke-width=".8"/>)",
        "hydrant"},
    SiteLook{
        "dry_hydrant",
        R"(<circle r="5" fill="#1f78b4" stroke="#fff" stroke-width=".8"/><path d="M-2.5 0H2.5M0 -2.5V2.5" stroke="#fff" stroke-width="1.3"/>)",
        "dry hydrant"},
    SiteLook{
        "draft_site",
        R"(<path d="M0 -6C4 -1 5 1 5 2A5 5 0 0 1 -5 2C-5 1 -4 -1 0 -6Z" fill="#1f78b4" stroke="#fff" stroke-width=".8"/>)",
        "draft site"},
    SiteLook{"cistern",
             R"(<path d="M-5 -4H5V5H-5Z" fill="#1f78b4" stroke="#fff" stroke-width=".8"/>)",
             "cistern"},
    SiteLook{"station",
             R"(<path d="M-6 5V-2L0 -7L6 -2V5Z" fill="#222" stroke="#fff" stroke-width=".8"/>)",
             "station"},
    SiteLook{"place", R"(<path d="M-4 -4H4V4H-4Z" fill="none" stroke="#222" stroke-width="1.4"/>)",
             "officer's dump site"},
};

std::string symbols() {
    std::string defs = "<defs>\n";
    for (const StateLook& look : looks) {
        defs += fmt::format("<g id=\"{}\">{}</g>\n", word(look.state), look.symbol);
    }
    for (const SiteLook& site : sites) {
        defs += fmt::format("<g id=\"{}\">{}</g>\n", site.id, site.symbol);
    }
    return defs + "</defs>\n";
}

std::string use(std::string_view id, Point at_page) {
    return fmt::format("<use href=\"#{}\" x=\"{:.1f}\" y=\"{:.1f}\"/>\n", id, at_page.x, at_page.y);
}

std::string road_style(const Road& road, bool tanker_may_use) {
    if (!tanker_may_use) {
        return R"(stroke="#b9b3a8" stroke-width="1" stroke-dasharray="3 2")";
    }
    const bool main_road = road.kind == RoadClass::state || road.kind == RoadClass::paved;
    return main_road ? R"(stroke="#8c8577" stroke-width="2.4")"
                     : R"(stroke="#a39c8d" stroke-width="1.4")";
}

std::string roads_of(const Findings& findings, const PageFit& fit) {
    std::string svg = "<g fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n";
    for (std::size_t i = 0; i < findings.district.roads.size(); ++i) {
        const Road& road = findings.district.roads[i];
        svg += fmt::format("<path d=\"{}\" {}/>\n", path_data(road.line, fit),
                           road_style(road, findings.road_times.tanker_may_use[i]));
    }
    return svg + "</g>\n";
}

// Bad news is drawn last, so that it is never hidden.
std::string houses_of(const Findings& findings, const PageFit& fit) {
    std::string svg;
    for (const StateLook& look : looks) {
        for (std::size_t row = 0; row < findings.parcels(); ++row) {
            if (findings.supply(row).state == look.state) {
                svg += use(word(look.state), fit(findings.district.parcels[row].house));
            }
        }
    }
    return svg;
}

std::string sites_of(const Findings& findings, const PageFit& fit) {
    std::string svg;
    for (const DumpSitePlace& place : findings.district.dump_site_places) {
        svg += use("place", fit(place.place));
    }
    for (const supply::CountedSource& counted : findings.water.counted) {
        const WaterSource& source = at(findings.district.sources, counted.source);
        svg += use(word(source.kind), fit(source.place));
    }
    for (const Station& station : findings.district.stations) {
        svg += use("station", fit(station.place));
    }
    return svg;
}

std::string legend_row(double& y, std::string_view id, const std::string& label) {
    y += 21.0;
    return use(id, {legend_left + 8.0, y - 4.0}) +
           fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n", legend_left + 22.0, y,
                       escaped(label));
}

std::size_t count_of(const Findings& findings, SupplyState state) {
    std::size_t count = 0;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        count += findings.supply(row).state == state ? 1U : 0U;
    }
    return count;
}

std::string legend_of(const Findings& findings) {
    double y = 96.0;
    std::string svg = fmt::format(
        "<text x=\"{:.0f}\" y=\"{:.0f}\" font-weight=\"bold\">Improved parcels</text>\n",
        legend_left, y);
    for (const StateLook& look : looks) {
        svg += legend_row(y, word(look.state),
                          fmt::format("{}: {}", look.legend, count_of(findings, look.state)));
    }
    y += 30.0;
    svg += fmt::format(
        "<text x=\"{:.0f}\" y=\"{:.0f}\" font-weight=\"bold\">Water and places</text>\n",
        legend_left, y);
    for (const SiteLook& site : sites) {
        svg += legend_row(y, site.id, std::string(site.legend));
    }
    y += 21.0;
    svg += fmt::format(
        "<path d=\"M{0:.0f} {1:.0f}h18\" stroke=\"#b9b3a8\" stroke-dasharray=\"3 2\"/><text "
        "x=\"{2:.0f}\" y=\"{3:.0f}\">no tanker may use it</text>\n",
        legend_left, y - 4.0, legend_left + 22.0, y);
    return svg;
}

// The largest of 1/4, 1/2, 1, 2, 5, ... miles that is at most 160 units long.
std::string scale_bar(const PageFit& fit) {
    double length = 0.25;
    for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0}) {
        length = step * metres_per_mile * fit.units_per_metre() <= 160.0 ? step : length;
    }
    const double units = length * metres_per_mile * fit.units_per_metre();
    return fmt::format(
        "<path d=\"M{0:.0f} 612v6h{1:.1f}v-6\" fill=\"none\" stroke=\"#222\"/><text x=\"{0:.0f}\" "
        "y=\"635\">{2} mi</text>\n"
        "<path d=\"M{3:.0f} 640v-24l-5 9m5 -9l5 9\" fill=\"none\" stroke=\"#222\"/><text "
        "x=\"{3:.0f}\" y=\"654\" text-anchor=\"middle\">N</text>\n",
        legend_left, units, length, legend_left + 200.0);
}

// Smaller for a long name, so that it stays on the page; a bold letter is about 0.62 of its size.
double title_size(std::string_view name) {
    const double room = page_width - legend_left - 10.0;
    return std::min(20.0, room / (0.62 * std::max(1.0, static_cast<double>(name.size()))));
}

std::string footing() {
    std::string svg =
        fmt::format("<text font-size=\"11\" fill=\"#444\" x=\"{:.0f}\" y=\"680\">\n", legend_left);
    for (const std::string_view line : {"Flow held by tanker shuttle,", "worst season and period.",
                                        "Planning figures: prove them", "by a timed drill."}) {
        svg += fmt::format("<tspan x=\"{:.0f}\" dy=\"15\">{}</tspan>\n", legend_left, line);
    }
    return svg + "</text>\n";
}

}  // namespace

std::string overview_svg(const Findings& findings, const RunRecord& record) {
    const PageFit fit(extent_of(findings.district), 20.0, 20.0, legend_left - 40.0,
                      page_height - 40.0);
    const Headline headline = headline_of(findings);
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
        "width=\"{0:.0f}\" height=\"{1:.0f}\" "
        "font-family=\"sans-serif\" font-size=\"13\" role=\"img\">\n",
        page_width, page_height);
    svg += fmt::format("<title>Water supply of {}</title>\n", escaped(findings.district.name));
    svg += symbols();
    svg += "<rect width=\"100%\" height=\"100%\" fill=\"#fbfaf7\"/>\n";
    svg += roads_of(findings, fit) + houses_of(findings, fit) + sites_of(findings, fit);
    svg += fmt::format(
        "<text x=\"{:.0f}\" y=\"40\" font-size=\"{:.1f}\" font-weight=\"bold\">{}</text>\n",
        legend_left, title_size(findings.district.name), escaped(findings.district.name));
    svg += fmt::format("<text x=\"{:.0f}\" y=\"62\">{} meet the planned flow</text>\n", legend_left,
                       percent(headline.held, headline.improved));
    svg += legend_of(findings) + scale_bar(fit) + footing();
    svg += fmt::format("<text font-size=\"9\" fill=\"#555\" x=\"20\" y=\"{:.0f}\">{}</text>\n",
                       page_height - 6.0, escaped(origin_words(findings.district, record)));
    return svg + "</svg>\n";
}

}  // namespace farwater::reports
