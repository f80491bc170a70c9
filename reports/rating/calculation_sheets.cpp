// The numbers behind the worst and the usual places, place by place.
#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "reports/print/sheet_blocks.h"
#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_sheets.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

struct ChosenPlace {
    std::string why;
    std::size_t row = 0;
};

std::vector<std::size_t> rows_where(const Findings& findings,
                                    const std::function<bool(std::size_t)>& fits) {
    std::vector<std::size_t> rows;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        if (fits(row)) {
            rows.push_back(row);
        }
    }
    return rows;
}

// The places of a list by a number, ties by row: the middle and the last.
std::vector<std::size_t> by_number(std::vector<std::size_t> rows,
                                   const std::function<double(std::size_t)>& number) {
    std::ranges::stable_sort(rows, {}, number);
    return rows;
}

class Choosing {
public:
    explicit Choosing(const Findings& findings) : findings_(findings) {}

    std::vector<ChosenPlace> chosen() {
        const auto place = [this](std::size_t row) -> const rating::PlaceRating& {
            return findings_.rating->places[row];
        };
        const auto near_with_water = rows_where(findings_, [&](std::size_t row) {
            return place(row).category == rating::Category::near_with_water;
        });
        const auto brought = rows_where(findings_, [&](std::size_t row) {
            return place(row).category != rating::Category::no_building && place(row).start;
        });
        const auto miles = rows_where(findings_, [&](std::size_t row) {
            return place(row).category != rating::Category::no_building && place(row).station_mi;
        });
        const auto credit = [&](std::size_t row) {
            return static_cast<double>(in_tenths(place(row).credited));
        };
        const auto start = [&](std::size_t row) {
            return static_cast<double>(supply::in_tenths(*place(row).start));
        };
        const auto distance = [&](std::size_t row) {
            return static_cast<double>(*place(row).station_mi);
        };
        add_first("least credited of those with water", by_number(near_with_water, credit));
        add_middle("usual among those with water", by_number(near_with_water, credit));
        add_first("earliest brought water", by_number(brought, start));
        add_middle("usual start of brought water", by_number(brought, start));
        add_last("latest brought water", by_number(brought, start));
        add_last("farthest from a station", by_number(miles, distance));
        add_first("a place where the minimum flow is not held",
                  rows_where(findings_, [&](std::size_t row) {
                      return place(row).fails == rating::Fails::flow;
                  }));
        return std::move(chosen_);
    }

private:
    void add(std::string_view why, std::size_t row) {
        const auto again = std::ranges::find(chosen_, row, &ChosenPlace::row);
        if (again == chosen_.end()) {
            chosen_.push_back({std::string(why), row});
        } else {
            again->why += "; " + std::string(why);
        }
    }
    void add_first(std::string_view why, const std::vector<std::size_t>& rows) {
        if (!rows.empty()) {
            add(why, rows.front());
        }
    }
    void add_middle(std::string_view why, const std::vector<std::size_t>& rows) {
        if (!rows.empty()) {
            add(why, rows[rows.size() / 2]);
        }
    }
    void add_last(std::string_view why, const std::vector<std::size_t>& rows) {
        if (!rows.empty()) {
            add(why, rows.back());
        }
    }

    const Findings& findings_;
    std::vector<ChosenPlace> chosen_;
};

std::string minutes_in_words(std::optional<supply::TenthsMinute> time) {
    return time ? fmt::format("{:.1f} min", supply::in_tenths(*time) / 10.0) : std::string();
}

std::string flow_in_words(HeldFlow flow) { return fmt::format("{} gpm", shown_gpm(flow)); }

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

// Gallons at the sources against gallons that the flow takes; those of one system count once.
std::string volume_in_words(const Findings& findings, const supply::ParcelSupply& brought) {
    const rating::Terms& terms = findings.rating->terms;
    const std::string asked =
        fmt::format("{} gal asked for", in_thousands(in_gallons(terms.minimum * terms.duration)));
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
            return asked + ", unlimited there";
        }
        there = there.value_or(0.0) + *gallons;
    }
    return there ? fmt::format("{}, {} gal there", asked, in_thousands(*there)) : asked;
}

std::string until_draft_in_words(const supply::ParcelSupply& brought) {
    if (brought.mode != SupplyMode::shuttle) {
        return "no shuttle";
    }
    return brought.nursing > 0 ? "a tanker feeds the engine at the fire by its own pump"
                               : "the tank of the engine at the fire";
}

void add_place(SheetBlocks& sheet, const Findings& findings, const ChosenPlace& chosen) {
    const rating::PlaceRating& place = findings.rating->places[chosen.row];
    const supply::ParcelSupply& brought = findings.rating->brought.supplies[chosen.row];
    const supply::Variant& variant =
        findings.rating->brought.variants[findings.rating->brought.worst_variant[chosen.row]]
            .variant;
    const std::string hose =
        place.hose_ft ? fmt::format("{:.0f} ft to {}", static_cast<double>(*place.hose_ft),
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
            {"Brought by", std::string(word(brought.mode))},
            {"From source", ids_of_sources(findings, brought)},
            {"Season and period", at(findings.district.seasons, variant.season).name + ", " +
                                      at(findings.district.periods, variant.period).name},
            {"First engine, from the alarm", minutes_in_words(brought.first_engine)},
            {"Minimum flow begins, by the terms' clock",
             place.start ? minutes_in_words(place.start) : "not within the late horizon"},
            {"Without water before that",
             brought.gap ? minutes_in_words(brought.gap) : "no supply that goes on"},
            {"Tankers in the shuttle", fmt::format("{}", brought.tankers)},
            {"Until the draft is up", until_draft_in_words(brought)},
            {"Round trip, driving", brought.mode == SupplyMode::shuttle
                                        ? minutes_in_words(brought.round_trip)
                                        : std::string("no shuttle")},
            {"Sum of undisturbed cycles", brought.mode == SupplyMode::shuttle
                                              ? flow_in_words(brought.handbook)
                                              : std::string("no shuttle")},
            {"Cautious flow held", flow_in_words(brought.cautious)},
            {"The same without the tanker missed most", flow_in_words(brought.one_tanker_out)},
            {"Limiting element", std::string(word(brought.limit))},
            {"Volume", volume_in_words(findings, brought)},
            {"Credited in all", flow_in_words(place.credited)},
        })
        .end_section();
}

}  // namespace

SheetBlocks calculation_sheets(const Findings& findings) {
    SheetBlocks sheet;
    sheet.paragraph(
        "Worst and usual places, with the apparatus and sources that count. Every parcel's own "
        "numbers stand in the layer parcel_supply of supply.gpkg.");
    for (const ChosenPlace& chosen : Choosing(findings).chosen()) {
        add_place(sheet, findings, chosen);
    }
    return sheet;
}

}  // namespace farwater::reports
