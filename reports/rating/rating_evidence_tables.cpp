// The tables of what is held against the terms: sources, apparatus, claims, and what is missing.
#include <array>
#include <memory>
#include <utility>

#include <fmt/format.h>

#include "reports/rating/claims.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rating_tables.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

io::Value flow_if_known(std::optional<Flow> flow) {
    return flow ? io::Value{in_gpm(*flow)} : io::Value{};
}

template <class Item, class Make>
ColumnOf text_of(std::string name, std::string description,
                 const std::shared_ptr<const std::vector<Item>>& list, Make make) {
    return text(std::move(name), std::move(description),
                [list, make](std::size_t row) { return value_of(make((*list)[row])); });
}

ColumnOf offered_for_rating(const Findings& findings) {
    return yes_no("offered_for_rating", "The department offers it for rating.",
                  [findings](std::size_t row) {
                      return io::Value{findings.rating->sources[row].is_candidate};
                  });
}

ColumnOf degrees_of(const District& district, std::string name, std::string description,
                    double Degrees::* which) {
    return real(
        std::move(name), std::move(description),
        [&district, which](std::size_t row) {
            const auto& degrees = district.sources[row].degrees;
            return degrees ? io::Value{(*degrees).*which} : io::Value{};
        },
        5);
}

ColumnOf is_there(const District& district) {
    return yes_no(
        "is_there", "no: one of [what_if_sources], counted as if it were there.",
        [&district](std::size_t row) { return io::Value{district.is_there(SourceIndex(row))}; });
}

ColumnOf counts_for_rating(const Findings& findings) {
    return yes_no("counts", "It has all that the terms ask for.", [findings](std::size_t row) {
        return io::Value{findings.rating->sources[row].creditable()};
    });
}

}  // namespace

io::FeatureTable rating_sources(const Findings& findings) {
    const District& district = findings.district;
    const auto source = [&district](std::size_t row) -> const WaterSource& {
        return district.sources[row];
    };
    const auto counted = [findings](std::size_t row) -> const supply::CountedSource* {
        return findings.water.counts[row]
                   ? &supply::counted_source(findings.water, SourceIndex(row))
                   : nullptr;
    };
    auto texts = std::make_shared<std::vector<std::array<std::string, 4>>>();
    const auto engines = engines_at_sources(findings);
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const WaterSource& each = district.sources[i];
        texts->push_back({day(each.tested_on), day(each.certified_on),
                          lacks_in_words(findings.rating->sources[i]),
                          engines_in_words(district, engines[i])});
    }
    std::vector<ColumnOf> columns{
        text("source_id", "Source.",
             [source](std::size_t row) { return value_of(source(row).id); }),
        text("name", "Its name.", [source](std::size_t row) { return value_of(source(row).name); }),
        text("kind", "hydrant, dry_hydrant, draft_site or cistern.",
             [source](std::size_t row) { return io::Value{word(source(row).kind)}; }),
        degrees_of(district, "latitude", "Degrees north, WGS 84.", &Degrees::latitude),
        degrees_of(district, "longitude", "Degrees east, WGS 84.", &Degrees::longitude),
        offered_for_rating(findings),
        is_there(district),
        counts_for_rating(findings),
        real(
            "rate_gpm", "What it gives, gpm; empty: it does not count at all.",
            [counted](std::size_t row) {
                const auto* found = counted(row);
                return found != nullptr ? io::Value{in_gpm(found->rate)} : io::Value{};
            },
            0),
        text("usable_gal", "Gallons at drought level, or unlimited.",
             [counted, kept = std::make_shared<std::string>()](std::size_t row) {
                 const auto* found = counted(row);
                 *kept = found == nullptr ? ""
                         : found->usable  ? fmt::format("{:.0f}", in_gallons(*found->usable))
                                          : "unlimited";
                 return value_of(*kept);
             }),
        text("tested_on", "Last test.",
             [texts](std::size_t row) { return value_of((*texts)[row][0]); }),
        text("certified_by", "Who certified its capacity in a drought.",
             [source](std::size_t row) { return value_of(source(row).certified_by); }),
        text("certified_on", "When.",
             [texts](std::size_t row) { return value_of((*texts)[row][1]); }),
        text("agreement", "The owner's written permission.",
             [source](std::size_t row) { return value_of(source(row).agreement); }),
        text("engines", "Engines that pump from it, and for how many parcels that are credited.",
             [texts](std::size_t row) { return value_of((*texts)[row][3]); }),
        text("missing", "What keeps it from counting.",
             [texts](std::size_t row) { return value_of((*texts)[row][2]); }),
    };
    return table({"rating_sources", "Sources as evidence for the rating",
                  "Only sources with use = rating, and all evidence, count."},
                 std::move(columns), district.sources.size());
}

io::FeatureTable rating_fleet(const Findings& findings) {
    const District& district = findings.district;
    const auto unit = [&district](std::size_t row) -> const Unit& { return district.units[row]; };
    const auto makers = std::make_shared<const std::vector<std::size_t>>(makes_water_for(findings));
    auto dates = std::make_shared<std::vector<std::string>>();
    for (const Unit& each : district.units) {
        dates->push_back(day(each.tested_on));
    }
    std::vector<ColumnOf> columns{
        text("unit_id", "Unit.", [unit](std::size_t row) { return value_of(unit(row).id); }),
        text("kind", "engine, tanker or other.",
             [unit](std::size_t row) { return io::Value{word(unit(row).kind)}; }),
        text("aid", "own, automatic or mutual; the farther of the unit's and its station's.",
             [unit, &district](std::size_t row) {
                 return io::Value{word(aid_of(district, unit(row)))};
             }),
        yes_no("counts", "Its aid counts under the terms.",
               [unit, findings](std::size_t row) {
                   return io::Value{
                       rating::unit_counts(findings.district, unit(row), findings.rating->terms)};
               }),
        real(
            "tank_gal", "Tank, gallons; empty: not recorded.",
            [unit](std::size_t row) {
                return unit(row).tank_known ? io::Value{in_gallons(unit(row).tank)} : io::Value{};
            },
            0),
        real(
            "fill_gpm", "Timed fill, gpm; empty: not timed.",
            [unit](std::size_t row) { return flow_if_known(unit(row).fill_limit); }, 0),
        real(
            "offload_gpm", "Timed offload, gpm; empty: not timed.",
            [unit](std::size_t row) { return flow_if_known(unit(row).offload); }, 0),
        text("tested_on", "When they were timed.",
             [dates](std::size_t row) { return value_of((*dates)[row]); }),
        real(
            "pump_gpm", "Rated pump, gpm; empty: not known.",
            [unit](std::size_t row) { return flow_if_known(unit(row).pump); }, 0),
        integer("makes_water_for",
                "Parcels for which it pumps at the dump site, at a source or in line: there it is "
                "not credited as suppression too.",
                [makers](std::size_t row) { return value_of_count((*makers)[row]); }),
    };
    return table(
        {"rating_fleet", "Apparatus as evidence for the rating", "Own, automatic and mutual aid."},
        std::move(columns), district.units.size());
}

io::FeatureTable rating_claims(const Findings& findings) {
    const auto list = std::make_shared<const std::vector<Claim>>(claims(findings));
    std::vector<ColumnOf> columns{
        text_of("department_says", "The claim.", list,
                [](const Claim& claim) { return std::string_view(claim.says); }),
        text_of("data_show", "What the data show.", list,
                [](const Claim& claim) { return std::string_view(claim.shows); }),
        text("shown", "met, in_part, not_met, not_counted or not_in_data.",
             [list](std::size_t row) { return io::Value{word((*list)[row].shown)}; }),
        text_of("signed_by", "Who stands for it.", list,
                [](const Claim& claim) { return std::string_view(claim.signs); }),
    };
    return table({"rating_claims", "What the department says and what the data show",
                  "Automatic aid stands apart from mutual."},
                 std::move(columns), list->size());
}

io::FeatureTable rating_missing(const Findings& findings) {
    const auto list =
        std::make_shared<const std::vector<MissingEvidence>>(missing_evidence(findings));
    std::vector<ColumnOf> columns{
        text_of("subject", "source, apparatus or district.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.subject); }),
        text_of("record", "Its id; empty: the district as a whole.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.record); }),
        text_of("missing", "What the assessor will ask for.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.what); }),
        yes_no("stops_credit",
               "yes: without it the source, or of the district no source at all, counts.",
               [list](std::size_t row) { return io::Value{(*list)[row].stops}; }),
    };
    return table({"rating_missing", "What the assessor will ask for and the data lack",
                  "Missing evidence is listed, never filled in."},
                 std::move(columns), list->size());
}

}  // namespace farwater::reports
