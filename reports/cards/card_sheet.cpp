#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/cautions.h"
#include "reports/explain/explanation.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string gpm_number(HeldFlow flow, HeldFlow needed) {
    return fmt::format("{}", planned_gpm(flow, needed));
}

std::string start_note(const CardView& view) {
    const supply::ParcelSupply& supply = view.supply();
    if (in_tenths(supply.cautious) == 0 && supply.earliest_start) {
        return fmt::format("at the start; needed flow from minute {}",
                           minute_words(supply.earliest_start));
    }
    const auto* look = view.look();
    return look == nullptr ? std::string()
                           : fmt::format("from minute {} for {:.0f} min",
                                         minute_words(look->shuttle.window.start),
                                         in_minutes(look->shuttle.window.duration));
}

std::string gap_note(const supply::ParcelSupply& supply) {
    if (!supply.continuous) {
        return "never without a break";
    }
    return supply.gap && supply::in_tenths(*supply.gap) > 0
               ? fmt::format("{} min WITHOUT water before", minute_words(supply.gap))
               : "no gap before it";
}

std::vector<BigNumber> big_numbers(const CardView& view) {
    const supply::ParcelSupply& supply = view.supply();
    const std::string tankers =
        plural(supply.tankers, view.district().tanker_word) + " in the shuttle";
    return {
        {"PLAN ON", gpm_number(supply.cautious, supply.needed), "gpm", start_note(view)},
        {"NEEDED", fmt::format("{:.0f}", in_gpm(flow_of(supply.needed))), "gpm",
         "this place " + std::string(state_sentence(supply.state))},
        {"TANK WATER", minute_words(supply.tank_water), "min",
         "first engine: minute " + minute_words(supply.first_engine)},
        {"STEADY WATER", minute_words(supply.continuous), "min", gap_note(supply)},
        {"ONE OUT", gpm_number(supply.one_tanker_out, supply.needed), "gpm",
         "without the " + view.district().tanker_word + " missed most"},
        {"ROUND TRIP", minute_words(supply.round_trip), "min",
         supply.round_trip ? "driving only; " + tankers : std::string("no shuttle")},
    };
}

// "9 meet the planned flow, 3 are short".
std::string states_in_words(const CardView& view) {
    constexpr std::array states{SupplyState::held,       SupplyState::late,
                                SupplyState::short_flow, SupplyState::tank_only,
                                SupplyState::unreached,  SupplyState::unknown};
    constexpr std::array<std::string_view, 6> words{
        "meet the planned flow", "late", "short", "tank water only", "not reached", "not known"};
    std::string text;
    for (std::size_t i = 0; i < states.size(); ++i) {
        const auto count = std::ranges::count_if(view.site().rows, [&](std::uint32_t row) {
            return view.book.findings.supply(row).state == states[i];
        });
        if (count > 0) {
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count, words[i]);
        }
    }
    return text;
}

std::string flows_in_words(const CardView& view) {
    HeldFlow low = view.supply().cautious;
    HeldFlow high = low;
    for (const std::uint32_t row : view.site().rows) {
        low = std::min(low, view.book.findings.supply(row).cautious);
        high = std::max(high, view.book.findings.supply(row).cautious);
    }
    return planned_gpm(low) == planned_gpm(high)
               ? fmt::format("{} gpm", planned_gpm(low))
               : fmt::format("{} to {} gpm", planned_gpm(low), planned_gpm(high));
}

std::vector<std::string> lines_under_title(const CardView& view) {
    const District& district = view.district();
    const supply::Variant& variant = view.working().variant;
    const std::size_t worst = view.site().worst;
    const std::string parcel = worst < view.book.findings.parcels()
                                   ? fmt::format(" ({})", name_words(district.parcels[worst].id))
                                   : std::string();
    std::vector<std::string> lines{
        fmt::format("{}. Serves {}: {}. Flow at them: {}.",
                    dump_site_names(view.book.findings)[view.site().dump_site.position()],
                    plural(view.site().rows.size(), "place"), states_in_words(view),
                    flows_in_words(view)),
        fmt::format("Figures: the worst, {}{}, {}, {}. Minutes from the alarm.",
                    view.book.place_name(worst), parcel,
                    spoken(at(district.seasons, variant.season).name),
                    spoken(at(district.periods, variant.period).name))};
    if (std::string what_if = what_if_sentence(district); !what_if.empty()) {
        lines.push_back(std::move(what_if));
    }
    return lines;
}

// Another named road that comes within that of the place.
std::string crossing_road(const District& district, Point place, const std::string& own) {
    constexpr double near_enough = 25.0;  // metres
    double best = near_enough * near_enough;
    std::string name;
    for (const Road& road : district.roads) {
        if (road.name.empty() || road.name == own || road.line.empty()) {
            continue;
        }
        for (const Point& end : {road.line.front(), road.line.back()}) {
            if (distance_squared(end, place) < best) {
                best = distance_squared(end, place);
                name = road.name;
            }
        }
    }
    return name_words(name);
}

std::string nearest_place(const CardView& view) {
    std::size_t best = view.site().worst;
    double least = Box::far;
    for (const std::uint32_t row : view.site().rows) {
        const double square = distance_squared(house_of(view.district(), row), view.place().place);
        if (square < least) {
            least = square;
            best = row;
        }
    }
    return view.book.place_name(best);
}

}  // namespace

const DumpSiteCandidate& CardView::place() const {
    return at(book.findings.seasons.front().trips.dump_sites, site().dump_site);
}

const supply::ShuttleWorking* CardView::look() const {
    for (const supply::ShuttleWorking& looked : working().looked) {
        if (looked.lay.dump_site == site().dump_site && !looked.shuttle.passed_over) {
            return &looked;
        }
    }
    return nullptr;
}

bool CardView::has_shuttle() const {
    return look() != nullptr && !look()->shuttle.incident.tankers.empty() &&
           !look()->shuttle.fills.empty();
}

std::string card_anchor(std::size_t card) { return fmt::format("card-{}", card + 1); }
std::string source_anchor(SourceIndex source) {
    return fmt::format("source-{}", source.position() + 1);
}

std::string site_title(const CardView& view) {
    const District& district = view.district();
    if (view.place().officers_place) {
        const DumpSitePlace& place = district.dump_site_places[*view.place().officers_place];
        return name_words(place.name.empty() ? place.id : place.name);
    }
    const std::string own = view.place().road.valid()
                                ? at(district.roads, view.place().road).name.text()
                                : std::string();
    const std::string shown = own.empty() ? "Road without a name" : name_words(own);
    const std::string other = crossing_road(district, view.place().place, own);
    return other.empty() ? shown + ", near " + nearest_place(view) : shown + " at " + other;
}

PrintedSheet card_sheet(const CardView& view) {
    PrintedSheet sheet{.anchor = card_anchor(view.card),
                       .badge = fmt::format("{}", view.card + 1),
                       .kind = "RUN CARD",
                       .title = site_title(view),
                       .outline = fmt::format("{}  {}", view.card + 1, site_title(view)),
                       .lines = lines_under_title(view),
                       .numbers = big_numbers(view),
                       .maps = card_maps(view),
                       .parts = {}};
    sheet.parts = {who_comes(view),       dump_site_part(view),     hose_part(view),
                   fill_sites_part(view), first_minutes_part(view), limits_part(view),
                   jobs_part(view),       cautions_part(view)};
    return sheet;
}

}  // namespace farwater::reports
