// The numbers behind the worst and the usual places, place by place.
#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/print/sheet_blocks.h"
#include "reports/rating/calculation_facts.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/tanker_lines.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string minutes_in_words(std::optional<supply::TenthsMinute> time) {
    return time ? fmt::format("{:.1f} min", supply::in_tenths(*time) / 10.0) : std::string();
}

std::string flow_in_words(HeldFlow flow) { return fmt::format("{} gpm", planned_gpm(flow)); }

std::string volume_in_words(const Findings& findings, const rating::PlaceRating& place,
                            const supply::ParcelSupply& brought) {
    const GallonsOfPlan gallons = gallons_of_plan(findings, place, brought);
    std::string words = in_thousands(in_gallons(gallons.minimum)) + " gal for the minimum flow";
    if (gallons.credited) {
        words +=
            fmt::format(", {} gal for the {} that are credited of it",
                        in_thousands(in_gallons(*gallons.credited)), flow_in_words(place.held));
    }
    return gallons.unlimited ? words + "; unlimited there"
           : gallons.there
               ? fmt::format("{}; {} gal there", words, in_thousands(in_gallons(*gallons.there)))
               : words;
}

std::string until_draft_in_words(const supply::ParcelSupply& brought) {
    if (brought.mode != SupplyMode::shuttle) {
        return "no shuttle";
    }
    return brought.nurse.valid() ? "a tanker feeds the engine at the fire by its own pump"
                                 : "the tank of the engine at the fire";
}

// The table of the tankers has the sum before it is rounded down.
std::string cycles_in_words(const supply::ParcelSupply& brought, bool has_table) {
    if (brought.mode != SupplyMode::shuttle) {
        return "no shuttle";
    }
    return flow_in_words(brought.handbook) +
           (has_table ? ", rounded down from the sum of the table below" : "");
}

std::string first_engine_in_words(const supply::ParcelSupply& brought) {
    return brought.first_engine                      ? minutes_in_words(brought.first_engine)
           : brought.state == SupplyState::unreached ? "no engine gets there"
                                                     : "not worked out";
}

std::string minutes_of(Duration time) { return fmt::format("{:.2f}", in_minutes(time)); }

// The sum stands above, as the sum of undisturbed cycles: both are of the same incident.
void add_tankers(SheetBlocks& sheet, const Findings& findings,
                 const std::vector<TankerLine>& lines) {
    if (lines.empty()) {
        return;
    }
    const District& district = findings.district;
    std::vector<SheetBlocks::Cells> rows;
    Flow sum;
    for (const TankerLine& line : lines) {
        rows.push_back({at(district.units, line.unit).id, id_of_source(findings, line.source),
                        in_thousands(in_gallons(line.usable)), minutes_of(line.fill),
                        minutes_of(line.loaded), minutes_of(line.offload), minutes_of(line.empty),
                        minutes_of(line.round_trip()), fmt::format("{:.1f}", in_gpm(line.flow()))});
        sum += line.flow();
    }
    rows.push_back(
        {"All together", "", "", "", "", "", "", "", fmt::format("{:.1f}", in_gpm(sum))});
    sheet.table({"Unit", "Fills at", "#Usable, gal", "#Fill, min", "#Loaded, min", "#Offload, min",
                 "#Empty, min", "#Round trip, min", "#Usable / round trip, gpm"},
                rows);
}

using CalculationFacts = std::vector<std::pair<std::string, std::string>>;

CalculationFacts facts_of_place(const Findings& findings, const rating::PlaceRating& place,
                                const supply::Variant& variant) {
    const std::string hose =
        place.hose_ft
            ? fmt::format("{} ft to {}", in_thousands(static_cast<double>(*place.hose_ft)),
                          id_of_source(findings, place.nearest))
            : "no source that counts in reach";
    return {
        {"Category", std::string(category_word(findings.rating->terms, place.category))},
        {"Fails first", std::string(sentence_of(place.fails))},
        {"Road miles from a station",
         place.station_mi ? fmt::format("{:.2f}", static_cast<double>(*place.station_mi))
                          : "no way there"},
        {"Hose to the nearest source that counts", hose},
        {"Credited by hose", flow_in_words(place.by_hose)},
        {"Credited in all", flow_in_words(place.credited)},
        {"Season and period", spoken(at(findings.district.seasons, variant.season).name) + ", " +
                                  spoken(at(findings.district.periods, variant.period).name)},
    };
}

CalculationFacts facts_of_plan(const Findings& findings, const rating::PlaceRating& place,
                               const supply::ParcelSupply& brought, bool has_table) {
    return {
        {"Brought by", std::string(mode_sentence(brought.mode))},
        {"From source", ids_of_sources(findings, brought)},
        {"First engine, from the alarm", first_engine_in_words(brought)},
        {"Minimum flow begins, by the terms' clock", place.start ? minutes_in_words(place.start)
                                                     : brought.state == SupplyState::unknown
                                                         ? "not worked out"
                                                         : "not within the late horizon"},
        {"Without water before that",
         brought.gap ? minutes_in_words(brought.gap) : "no supply that goes on"},
        {"Engines that make water", makers_in_words(findings, brought)},
        {"Tankers in the shuttle", fmt::format("{}", brought.tankers)},
        {"Until the draft is up", until_draft_in_words(brought)},
        {"Round trip, driving", brought.mode == SupplyMode::shuttle
                                    ? minutes_in_words(brought.round_trip)
                                    : std::string("no shuttle")},
        {"Sum of undisturbed cycles", cycles_in_words(brought, has_table)},
        {"Cautious flow held", flow_in_words(brought.cautious)},
        {"The same without the tanker missed most", flow_in_words(brought.one_tanker_out)},
        {"Limiting element", brought.state == SupplyState::unknown
                                 ? "not worked out"
                                 : std::string(limit_sentence(brought.limit))},
        {"Volume", volume_in_words(findings, place, brought)},
    };
}

void add_place(SheetBlocks& sheet, const Findings& findings,
               const rating::PlaceCalculation& chosen) {
    const supply::Assessment& brought = findings.rating->brought;
    const rating::PlaceRating& place = findings.rating->places[chosen.row];
    const std::vector<TankerLine> tankers = tanker_lines(chosen);
    CalculationFacts facts = facts_of_place(
        findings, place, brought.variants[brought.worst_variant[chosen.row]].variant);
    std::ranges::move(
        facts_of_plan(findings, place, brought.supplies[chosen.row], !tankers.empty()),
        std::back_inserter(facts));
    sheet.begin_section("parcel-" + findings.district.parcels[chosen.row].id, false)
        .heading("Parcel " + findings.district.parcels[chosen.row].id)
        .paragraph("Chosen as: " + chosen.why + ".")
        .facts(std::move(facts));
    add_tankers(sheet, findings, tankers);
    sheet.end_section();
}

}  // namespace

SheetBlocks calculation_sheets(const Findings& findings) {
    SheetBlocks sheet;
    sheet.paragraph(
        "Worst and usual places, with the apparatus and sources that count. Every parcel's own "
        "numbers stand in tables/rating_parcels.csv. A tanker's gpm are its usable "
        "gallons over its own round trip, with nobody in its way; fill and offload have their "
        "handling in them, and drives are those of the roads. Flows but those of that table are "
        "rounded down: to 25 gpm below 500, to 50 gpm above. The same stands in "
        "tables/rating_calculations.csv and tables/rating_tankers.csv, not rounded.");
    for (const rating::PlaceCalculation& chosen : findings.rating->calculations) {
        add_place(sheet, findings, chosen);
    }
    return sheet;
}

}  // namespace farwater::reports
