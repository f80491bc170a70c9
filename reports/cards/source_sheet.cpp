// A page of the source book: what is known of one source, and room for what is not.
#include <algorithm>

#include <fmt/format.h>

#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using PrintedRows = std::vector<std::vector<std::string>>;

constexpr double across_route_map = 2400.0;  // metres
constexpr double across_close_map = 300.0;

std::string or_to_fill(std::string known) {
    return known.empty() ? std::string(to_fill) : std::move(known);
}

std::string feet_or_none(std::optional<Length> length) {
    return length ? fmt::format("{:.1f} ft", in_feet(*length)) : std::string();
}

// The cards whose worst place fills here.
std::vector<std::size_t> cards_at(const CardBook& book, SourceIndex source) {
    std::vector<std::size_t> cards;
    for (std::size_t card = 0; card < book.sites.size(); ++card) {
        if (book.findings.supply(book.sites[card].worst).fills_at(source)) {
            cards.push_back(card);
        }
    }
    return cards;
}

std::string cards_in_words(const std::vector<std::size_t>& cards) {
    constexpr std::size_t most = 40;
    std::string text;
    for (std::size_t i = 0; i < std::min(most, cards.size()); ++i) {
        text += fmt::format("{}{}", text.empty() ? "" : ", ", cards[i] + 1);
    }
    return cards.size() > most ? fmt::format("{} and {} more", text, cards.size() - most) : text;
}

std::string whose(const CardBook& book, const supply::CountedSource& counted) {
    return counted.is_for_all()
               ? std::string()
               : fmt::format("For property {} alone, by hose. ",
                             name_words(at(book.district().parcels, counted.only_for).id));
}

SiteMap source_map(const RoadsAround& roads, const CardBook& book, const WaterSource& source,
                   double across, std::string title) {
    SiteMap map{.title = std::move(title), .box = {}, .lines = {}, .marks = {}};
    map.box.include(source.place);
    map.box = box_on_paper(map.box, across);
    roads.add_to(map);
    for (const supply::CountedSource& other : book.findings.water.counted) {
        const WaterSource& it = at(book.district().sources, other.source);
        map.marks.push_back({MapMark::source, it.place, name_words(it.id)});
    }
    for (const Station& station : book.district().stations) {
        map.marks.push_back({MapMark::station, station.place, name_words(station.id)});
    }
    map.marks.push_back({MapMark::fill_site, source.place, "F"});
    return map;
}

SheetPart strength(const WaterSource& source, const supply::CountedSource& counted) {
    PrintedRows rows{
        {"Rate", fmt::format("{} gpm, by {}", in_thousands(std::floor(in_gpm(counted.rate))),
                             spoken(word(counted.limit)))},
        {"Usable",
         counted.usable ? gallon_words(*counted.usable) : std::string("unlimited, as stated")},
        {"Rests on", std::string(word(counted.evidence))},
        {"Standing",
         fmt::format("{}{}", word(source.standing),
                     source.standing_by.empty() ? "" : ", " + name_words(source.standing_by))},
        {"Last test", or_to_fill(day(source.tested_on))},
        {"Places", fmt::format("{}", counted.places)},
        {"Set-up", fmt::format("{:.0f} min", std::ceil(in_minutes(counted.setup)))},
        {"Water system", source.system.empty() ? "by itself" : name_words(source.system)},
    };
    if (!counted.assumed.empty()) {
        std::string assumed;
        for (const std::string_view column : counted.assumed) {
            assumed += (assumed.empty() ? "" : ", ") + std::string(column);
        }
        rows.push_back({"Assumed", assumed});
    }
    return {.heading = "WHAT IT GIVES",
            .column = SheetColumn::left,
            .items = {SheetTable{{}, std::move(rows)}}};
}

SheetPart access(const WaterSource& source) {
    return {.heading = "GETTING THERE",
            .column = SheetColumn::left,
            .items = {SheetTable{
                {},
                {{"Cross street", or_to_fill(name_words(source.cross_street))},
                 {"Reached by", source.reach == Reach::engine ? "engine" : "portable pump only"},
                 {"Lane", source.lane ? *source.lane == LaneClass::through ? "drive through"
                                                                           : "back or turn"
                                      : std::string(to_fill)},
                 {"Permission", or_to_fill(name_words(source.agreement))},
                 {"Gate, key, holder", std::string(to_fill)},
                 {"Ploughed by", std::string(to_fill)}}}}};
}

SheetPart suction(const WaterSource& source) {
    if (source.kind == SourceKind::hydrant) {
        const auto psi = [](std::optional<double> value) {
            return value ? fmt::format("{:.0f} psi", *value) : std::string();
        };
        return {
            .heading = "HYDRANT",
            .column = SheetColumn::right,
            .items = {SheetTable{
                {},
                {{"Static", or_to_fill(psi(source.hydrant.static_psi))},
                 {"Residual", or_to_fill(psi(source.hydrant.residual_psi))},
                 {"Main", or_to_fill(source.hydrant.main
                                         ? fmt::format("{:.3g} in", in_inches(*source.hydrant.main))
                                         : std::string())},
                 {"Outlets, threads", std::string(to_fill)},
                 {"Water works, phone", std::string(to_fill)}}}}};
    }
    return {.heading = "SUCTION",
            .column = SheetColumn::right,
            .items = {SheetTable{
                {},
                {{"Lift", or_to_fill(feet_or_none(source.suction.lift))},
                 {"Pipe", or_to_fill(feet_or_none(source.suction.pipe))},
                 {"Hard suction", or_to_fill(feet_or_none(source.suction.hose))},
                 {"Adapter, thread", std::string(to_fill)},
                 {"Strainer, float", std::string(to_fill)},
                 {"Under ice", source.frost_proof ? "can be used" : std::string(to_fill)}}}}};
}

}  // namespace

PrintedSheet source_sheet(const CardBook& book, const RoadsAround& roads,
                          const supply::CountedSource& counted) {
    const WaterSource& source = at(book.district().sources, counted.source);
    const auto cards = cards_at(book, counted.source);
    PrintedSheet sheet{
        .anchor = source_anchor(counted.source),
        .badge = name_words(source.id),
        .kind = "SOURCE",
        .title = source.name.empty() ? name_words(source.id) : name_words(source.name),
        .outline = fmt::format("{}  {}", name_words(source.id), name_words(source.name)),
        .lines = {fmt::format("{}. {}{}", spoken(word(source.kind)), whose(book, counted),
                              cards.empty() ? std::string("On no card's plan.")
                                            : "On cards " + cards_in_words(cards) + ".")},
        .numbers = {},
        .maps = {source_map(roads, book, source, across_route_map, "Roads around it"),
                 source_map(roads, book, source, across_close_map, "The place")},
        .parts = {strength(source, counted), access(source), suction(source)}};
    if (!source.note.empty()) {
        sheet.parts.push_back(
            {.heading = "NOTE", .column = SheetColumn::right, .items = {SheetText{source.note}}});
    }
    sheet.parts.push_back(
        {.heading = "SEEN BY",
         .column = SheetColumn::right,
         .items = {LinesToFill{{"Date", "Name"}}, LinesToFill{{"Changed since"}},
                   SheetText{"Never pull a main below 20 psi. Never fill from a suspect source. "
                             "Planning figures: prove them by a flow test."}}});
    return sheet;
}

}  // namespace farwater::reports
