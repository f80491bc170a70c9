// The numbers behind the worst and the usual places, place by place.
#include <algorithm>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/print/sheet_blocks.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/tanker_lines.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string minutes_in_words(std::optional<supply::TenthsMinute> time) {
    return time ? fmt::format("{:.1f} min", supply::in_tenths(*time) / 10.0) : std::string();
}

std::string flow_in_words(HeldFlow flow) { return fmt::format("{} gpm", planned_gpm(flow)); }

std::string id_of_source(const Findings& findings, SourceIndex source) {
    return source.valid() ? at(findings.district.sources, source).id : std::string("none");
}

// All fill sites that are in use at the same time.
std::vector<SourceIndex> sources_in_use(const supply::ParcelSupply& brought) {
    std::vector<SourceIndex> sources;
    if (brought.fill_source.valid()) {
        sources.push_back(brought.fill_source);
    }
    for (const supply::FurtherFill& fill : brought.further_fills) {
        if (fill.source.valid()) {
            sources.push_back(fill.source);
        }
    }
    return sources;
}

std::string ids_of_sources(const Findings& findings, const supply::ParcelSupply& brought) {
    std::string ids;
    for (const SourceIndex source : sources_in_use(brought)) {
        ids += (ids.empty() ? "" : ", ") + id_of_source(findings, source);
    }
    return ids.empty() ? "none" : ids;
}

// Gallons over the duration at one source; none = unlimited.
std::optional<double> gallons_there(const Findings& findings, SourceIndex source) {
    const auto& counted = supply::counted_source(findings.water, source);
    const Duration duration = findings.rating->terms.duration;
    return counted.usable ? std::optional(in_gallons(*counted.usable + counted.inflow * duration))
                          : std::nullopt;
}

// Gallons that the minimum flow takes, and what is credited of the brought flow, as it is printed.
std::string gallons_asked(const rating::Terms& terms, HeldFlow credited) {
    std::string asked = fmt::format("{} gal for the minimum flow",
                                    in_thousands(in_gallons(terms.minimum * terms.duration)));
    const int printed = planned_gpm(credited);
    if (gpm(printed) > terms.minimum) {
        asked += fmt::format(", {} gal for the {} gpm that are credited of it",
                             in_thousands(in_gallons(gpm(printed) * terms.duration)),
                             in_thousands(printed));
    }
    return asked;
}

// Gallons at the sources against gallons that the flow takes; those of one system count once.
std::string volume_in_words(const Findings& findings, const rating::PlaceRating& place,
                            const supply::ParcelSupply& brought) {
    const std::string asked = gallons_asked(findings.rating->terms, place.held);
    std::optional<double> there;
    std::vector<std::string> systems;
    for (const SourceIndex source : sources_in_use(brought)) {
        const std::string& system = at(findings.district.sources, source).system;
        if (!findings.water.counts[source.position()] ||
            (!system.empty() && std::ranges::find(systems, system) != systems.end())) {
            continue;
        }
        systems.push_back(system);
        const auto gallons = gallons_there(findings, source);
        if (!gallons) {
            return asked + "; unlimited there";
        }
        there = there.value_or(0.0) + *gallons;
    }
    return there ? fmt::format("{}; {} gal there", asked, in_thousands(*there)) : asked;
}

std::string until_draft_in_words(const supply::ParcelSupply& brought) {
    if (brought.mode != SupplyMode::shuttle) {
        return "no shuttle";
    }
    return brought.nursing > 0 ? "a tanker feeds the engine at the fire by its own pump"
                               : "the tank of the engine at the fire";
}

std::string makers_in_words(const Findings& findings, const supply::ParcelSupply& brought) {
    std::string units;
    for (const UnitIndex unit : brought.makers) {
        if (unit.valid()) {
            units += (units.empty() ? "" : ", ") + at(findings.district.units, unit).id;
        }
    }
    if (units.empty() || brought.mode == SupplyMode::none) {
        return "none";
    }
    const std::size_t in_relay = brought.mode == SupplyMode::relay ? brought.engines_needed : 0U;
    const std::size_t told = brought.makers.size() + 1;  // and the one that attacks
    return in_relay > told ? fmt::format("{} and {} more in line", units, in_relay - told) : units;
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

void add_place(SheetBlocks& sheet, const Findings& findings,
               const rating::PlaceCalculation& chosen) {
    const rating::PlaceRating& place = findings.rating->places[chosen.row];
    const std::vector<TankerLine> tankers = tanker_lines(chosen);
    const supply::ParcelSupply& brought = findings.rating->brought.supplies[chosen.row];
    const supply::Variant& variant =
        findings.rating->brought.variants[findings.rating->brought.worst_variant[chosen.row]]
            .variant;
    const std::string hose =
        place.hose_ft
            ? fmt::format("{} ft to {}", in_thousands(static_cast<double>(*place.hose_ft)),
                          id_of_source(findings, place.nearest))
            : "no source that counts in reach";
    sheet.begin_section("parcel-" + findings.district.parcels[chosen.row].id, false)
        .heading("Parcel " + findings.district.parcels[chosen.row].id)
        .paragraph("Chosen as: " + chosen.why + ".")
        .facts({
            {"Category", std::string(category_word(findings.rating->terms, place.category))},
            {"Fails first", std::string(sentence_of(place.fails))},
            {"Road miles from a station",
             place.station_mi ? fmt::format("{:.2f}", static_cast<double>(*place.station_mi))
                              : "no way there"},
            {"Hose to the nearest source that counts", hose},
            {"Credited by hose", flow_in_words(place.by_hose)},
            {"Brought by", std::string(mode_sentence(brought.mode))},
            {"From source", ids_of_sources(findings, brought)},
            {"Season and period", spoken(at(findings.district.seasons, variant.season).name) +
                                      ", " +
                                      spoken(at(findings.district.periods, variant.period).name)},
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
            {"Sum of undisturbed cycles", cycles_in_words(brought, !tankers.empty())},
            {"Cautious flow held", flow_in_words(brought.cautious)},
            {"The same without the tanker missed most", flow_in_words(brought.one_tanker_out)},
            {"Limiting element", std::string(limit_sentence(brought.limit))},
            {"Volume", volume_in_words(findings, place, brought)},
            {"Credited in all", flow_in_words(place.credited)},
        });
    add_tankers(sheet, findings, tankers);
    sheet.end_section();
}

}  // namespace

SheetBlocks calculation_sheets(const Findings& findings) {
    SheetBlocks sheet;
    sheet.paragraph(
        "Worst and usual places, with the apparatus and sources that count. Every parcel's own "
        "numbers stand in the layer parcel_supply of supply.gpkg. A tanker's gpm are its usable "
        "gallons over its own round trip, with nobody in its way; fill and offload have their "
        "handling in them, and drives are those of the roads. Flows but those of that table are "
        "rounded down: to 25 gpm below 500, to 50 gpm above. The same stands in "
        "tables/rating_tankers.csv.");
    for (const rating::PlaceCalculation& chosen : findings.rating->calculations) {
        add_place(sheet, findings, chosen);
    }
    return sheet;
}

}  // namespace farwater::reports
