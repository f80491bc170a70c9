#include "reports/rating/claims.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "reports/rating/makes_water.h"
#include "reports/rating/rating_totals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using namespace std::string_view_literals;

constexpr std::array shown_words{"met"sv, "in_part"sv, "not_met"sv, "not_counted"sv,
                                 "not_in_data"sv};
constexpr std::array shown_sentences{"met"sv, "met in part"sv, "not met"sv, "not counted"sv,
                                     "not in the data"sv};

// Units that count, by aid, and the gallons of their tankers.
struct FleetCount {
    std::size_t engines = 0, tankers = 0;
    double gallons = 0.0;
};

FleetCount fleet_of(const Findings& findings, Aid aid) {
    FleetCount count;
    const District& district = findings.district;
    for (const Unit& unit : district.units) {
        if (aid_of(district, unit) != aid) {
            continue;
        }
        count.engines += unit.kind == UnitKind::engine ? 1U : 0U;
        count.tankers += unit.kind == UnitKind::tanker ? 1U : 0U;
        count.gallons += unit.kind == UnitKind::tanker ? in_gallons(unit.tank) : 0.0;
    }
    return count;
}

std::string number_of(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string fleet_in_words(const FleetCount& count, std::string_view tanker_word) {
    return fmt::format("{}; {} with {} gal", number_of(count.engines, "engine"),
                       number_of(count.tankers, tanker_word), in_thousands(count.gallons));
}

// Whether what apparatus brings meets the terms at any parcel.
bool anything_is_credited(const Findings& findings) {
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        if (is_credited(findings, row)) {
            return true;
        }
    }
    return false;
}

Claim claim_of_apparatus(const Findings& findings, Aid aid) {
    const bool counts = aid <= findings.rating->terms.farthest_aid;
    const std::string_view whose = aid == Aid::own         ? "Own apparatus"
                                   : aid == Aid::automatic ? "Automatic aid"
                                                           : "Mutual aid";
    const FleetCount fleet = fleet_of(findings, aid);
    const bool there = fleet.engines + fleet.tankers > 0;
    const bool meets = anything_is_credited(findings);
    return {fmt::format("{} brings water", whose),
            fleet_in_words(fleet, findings.district.tanker_word) +
                (!counts           ? "; not counted under these terms"
                 : !there || meets ? "; counted"
                                   : "; counted, but at no parcel does what apparatus brings meet "
                                     "the terms"),
            aid == Aid::own ? "Chief" : "Chief, and the chief of the aiding department",
            !counts  ? Shown::not_counted
            : !there ? Shown::not_in_data
            : meets  ? Shown::met
                     : Shown::not_met};
}

Claim claim_of_sources(const Findings& findings) {
    const auto& sources = findings.rating->sources;
    const auto claimed = std::ranges::count_if(
        sources, [](const rating::SourceVerdict& v) { return v.is_candidate; });
    const auto creditable = std::ranges::count_if(
        sources, [](const rating::SourceVerdict& v) { return v.creditable(); });
    return {fmt::format("{} of {} sources are offered for rating", claimed, sources.size()),
            fmt::format("{} have all evidence that the terms ask for", creditable),
            "Water supply officer; owners of the sources",
            shown_of(static_cast<std::size_t>(creditable), static_cast<std::size_t>(claimed))};
}

// The coverage statement counts the near ones alone.
std::string far_in_words(const rating::Terms& terms, std::size_t parcels) {
    return parcels == 0
               ? std::string()
               : fmt::format("; {} of them beyond {:.3g} road miles of a station",
                             in_thousands(static_cast<double>(parcels)), in_miles(terms.near));
}

// Whoever asks for a share has it met or not; else every property is for itself.
Claim claim_of_flow(const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    const auto totals = totals_by_category(findings);
    const auto of = [&](rating::Category category) {
        return totals[static_cast<std::size_t>(category)].parcels;
    };
    const std::size_t all = parcels_with_buildings(totals);
    const std::size_t with_water =
        of(rating::Category::near_with_water) + of(rating::Category::far_with_water);
    const double share = terms.department.share;
    const bool enough =
        all > 0 && static_cast<double>(with_water) + 1e-6 >= share * static_cast<double>(all);
    return {fmt::format("{} for {:.0f} min, begun within {:.0f} min of {}{}",
                        gpm_in_words(terms.minimum), in_minutes(terms.duration),
                        in_minutes(terms.start_within), clock_in_words(terms.clock),
                        share > 0.0
                            ? fmt::format(", at {:.3g} % of the properties or more", share * 100.0)
                            : std::string()),
            share_in_words(with_water, all) + ", worst season and period of each" +
                far_in_words(terms, of(rating::Category::far_with_water)),
            "Chief, after a timed drill",
            share <= 0.0 ? shown_of(with_water, all)
            : enough     ? Shown::met
                         : Shown::not_met};
}

Claim claim_of_distance(const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    const auto totals = totals_by_category(findings);
    const std::size_t near =
        totals[static_cast<std::size_t>(rating::Category::near_with_water)].parcels +
        totals[static_cast<std::size_t>(rating::Category::near_without_water)].parcels;
    const std::size_t all = parcels_with_buildings(totals);
    return {
        fmt::format("Properties are within {:.3g} road miles of a station", in_miles(terms.near)),
        share_in_words(near, all), "Chief", shown_of(near, all)};
}

// What decides most starts, and nobody but the department can vouch for.
Claim claim_of_nursing(const Findings& findings) {
    std::size_t brought = 0;
    std::size_t nursed = 0;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const bool credited = is_credited(findings, row);
        brought += credited ? 1U : 0U;
        nursed += credited && findings.rating->brought.supplies[row].nurse.valid() ? 1U : 0U;
    }
    return {fmt::format("A {} feeds the engine at the fire by its own pump until the draft is up",
                        findings.district.tanker_word),
            fmt::format("done so at {} of {} parcels where what apparatus brings meets the terms",
                        in_thousands(static_cast<double>(nursed)),
                        in_thousands(static_cast<double>(brought))),
            "Chief, after a timed drill", Shown::not_in_data};
}

Claim claim_of_makers(const Findings& findings) {
    const std::vector<std::size_t> makers = makes_water_for(findings);
    std::vector<PumpsAt> units;
    for (std::size_t i = 0; i < makers.size(); ++i) {
        if (makers[i] > 0) {
            units.push_back({UnitIndex(i), makers[i]});
        }
    }
    return {"Units and crews that make water are not credited as fire suppression too",
            units.empty() ? "no unit makes water under these terms"
                          : "pump at the dump site, at a source or in line: " +
                                engines_in_words(findings.district, units),
            "Chief", Shown::not_in_data};
}

}  // namespace

std::span<const std::string_view> words_of(Shown) { return shown_words; }
std::string_view shown_in_words(Shown shown) {
    return shown_sentences[static_cast<std::size_t>(shown)];
}

std::string_view clock_in_words(ClockStart clock) {
    switch (clock) {
        case ClockStart::alarm:
            return "the alarm";
        case ClockStart::first_arrival:
            return "the first apparatus arriving";
        case ClockStart::parking_brake:
            break;
    }
    return "the first apparatus setting its parking brake (taken as its arrival)";
}

std::vector<Claim> claims(const Findings& findings) {
    std::vector<Claim> list{claim_of_flow(findings),
                            claim_of_distance(findings),
                            claim_of_nursing(findings),
                            claim_of_sources(findings),
                            claim_of_apparatus(findings, Aid::own),
                            claim_of_apparatus(findings, Aid::automatic),
                            claim_of_apparatus(findings, Aid::mutual),
                            claim_of_makers(findings)};
    std::ranges::move(claims_of_department(findings), std::back_inserter(list));
    return list;
}

}  // namespace farwater::reports
