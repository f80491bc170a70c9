#include "reports/rating/rating_tables.h"

#include <cmath>
#include <memory>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "reports/need_columns.h"
#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_totals.h"

namespace farwater::reports {
namespace {

io::Value flow_if_known(std::optional<Flow> flow) {
    return flow ? io::Value{in_gpm(*flow)} : io::Value{};
}

io::Value whole_if_known(std::optional<double> number) {
    return number ? io::Value{std::round(*number)} : io::Value{};
}

std::string date_in_words(std::optional<Date> date) {
    return date ? fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date->year()),
                              static_cast<unsigned>(date->month()),
                              static_cast<unsigned>(date->day()))
                : std::string();
}

template <class Item, class Make>
ColumnOf text_of(std::string name, std::string description,
                 const std::shared_ptr<const std::vector<Item>>& list, Make make) {
    return text(std::move(name), std::move(description),
                [list, make](std::size_t row) { return value_of(make((*list)[row])); });
}

std::vector<ColumnOf> total_columns(const std::shared_ptr<const std::vector<RatingTotal>>& totals) {
    return {
        integer("parcels", "Parcels with a building.",
                [totals](std::size_t row) { return value_of_count((*totals)[row].parcels); }),
        integer("buildings", "Buildings on them; one where the data tell no number.",
                [totals](std::size_t row) { return value_of_count((*totals)[row].buildings); }),
        real(
            "building_area_sqft", "Footprints of their buildings, square feet, where known.",
            [totals](std::size_t row) { return io::Value{std::round((*totals)[row].area_sqft)}; },
            0),
        real(
            "value", "Their value where the parcels give one, in the district's money.",
            [totals](std::size_t row) { return whole_if_known((*totals)[row].value); }, 0),
        integer("parcels_without_value", "Parcels that give no value.",
                [totals](std::size_t row) { return value_of_count((*totals)[row].without_value); }),
    };
}

}  // namespace

io::FeatureTable rating_terms(const Findings& findings) {
    const Standard& standard = findings.district.rating->standard;
    const auto of = [&standard](std::size_t row) -> const StandardValue& {
        return standard.values[row];
    };
    auto words = std::make_shared<std::vector<std::string>>();
    for (const StandardValue& value : standard.values) {
        words->push_back(value.text + fmt::format("{:.10g}", fmt::join(value.numbers, ", ")));
    }
    std::vector<ColumnOf> columns{
        text("key", "Table and name; it ends in its unit.",
             [of](std::size_t row) { return value_of(of(row).key); }),
        text("value", "Word, number, or numbers of a list in their order.",
             [words](std::size_t row) { return value_of((*words)[row]); }),
        text("section", "Where it stands.",
             [of](std::size_t row) { return value_of(of(row).section); }),
        text("certainty", "How sure it is; what comes from memory was not confirmed.",
             [of](std::size_t row) { return value_of(certainty_in_words(of(row).certainty)); }),
        text("source", "Where it was seen, or what it is remembered from.",
             [of](std::size_t row) { return value_of(of(row).source); }),
    };
    return table({"rating_terms", "Terms that the rating was held against",
                  standard.name + "; " + standard.edition},
                 std::move(columns), standard.values.size());
}

io::FeatureTable rating_categories(const Findings& findings) {
    const auto totals = std::make_shared<const std::vector<RatingTotal>>([&findings] {
        auto all = totals_by_category(findings);
        all.erase(all.begin());  // no building
        return all;
    }());
    const auto category = [](std::size_t row) { return static_cast<rating::Category>(row + 1); };
    std::vector<ColumnOf> columns{
        text("rating_category", "In the terms' own words.",
             [category, rating = findings.rating](std::size_t row) {
                 return value_of(category_word(rating->terms, category(row)));
             }),
        text("meaning", "In ours.",
             [category](std::size_t row) { return io::Value{meaning_of(category(row))}; }),
    };
    for (ColumnOf& column : total_columns(totals)) {
        columns.push_back(std::move(column));
    }
    return table({"rating_categories", "Parcels by rating category",
                  "Worst season and period of each. The rating organisation decides."},
                 std::move(columns), totals->size());
}

io::FeatureTable rating_reasons(const Findings& findings) {
    const auto totals =
        std::make_shared<const std::vector<RatingTotal>>(totals_by_reason(findings));
    std::vector<ColumnOf> columns{
        text("rating_fails_first", "Which of the terms is failed first.",
             [](std::size_t row) { return io::Value{word(static_cast<rating::Fails>(row))}; }),
        text("meaning", "In a sentence.",
             [](std::size_t row) {
                 return io::Value{sentence_of(static_cast<rating::Fails>(row))};
             }),
    };
    for (ColumnOf& column : total_columns(totals)) {
        columns.push_back(std::move(column));
    }
    return table({"rating_reasons", "Parcels by which of the terms they fail first",
                  "In the order in which the terms are looked at."},
                 std::move(columns), totals->size());
}

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
    auto texts = std::make_shared<std::vector<std::array<std::string, 3>>>();
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const WaterSource& each = district.sources[i];
        texts->push_back({date_in_words(each.tested_on), date_in_words(each.certified_on),
                          lacks_in_words(findings.rating->sources[i])});
    }
    std::vector<ColumnOf> columns{
        text("source_id", "Source.",
             [source](std::size_t row) { return value_of(source(row).id); }),
        text("name", "Its name.", [source](std::size_t row) { return value_of(source(row).name); }),
        text("kind", "hydrant, dry_hydrant, draft_site or cistern.",
             [source](std::size_t row) { return io::Value{word(source(row).kind)}; }),
        yes_no("offered_for_rating", "The department offers it for rating.",
               [findings](std::size_t row) {
                   return io::Value{findings.rating->sources[row].is_candidate};
               }),
        yes_no("counts", "It has all that the terms ask for.",
               [findings](std::size_t row) {
                   return io::Value{findings.rating->sources[row].creditable()};
               }),
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
        dates->push_back(date_in_words(each.tested_on));
    }
    std::vector<ColumnOf> columns{
        text("unit_id", "Unit.", [unit](std::size_t row) { return value_of(unit(row).id); }),
        text("kind", "engine, tanker or other.",
             [unit](std::size_t row) { return io::Value{word(unit(row).kind)}; }),
        text("aid", "own, automatic or mutual; the farther of the unit's and its station's.",
             [unit, &district](std::size_t row) {
                 return io::Value{
                     word(std::max(unit(row).aid, at(district.stations, unit(row).station).aid))};
             }),
        yes_no("counts", "Its aid counts under the terms.",
               [unit, findings](std::size_t row) {
                   return io::Value{
                       rating::unit_counts(findings.district, unit(row), findings.rating->terms)};
               }),
        real(
            "tank_gal", "Tank, gallons.",
            [unit](std::size_t row) { return io::Value{in_gallons(unit(row).tank)}; }, 0),
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
                "Parcels at which it is the first engine that pumps at the source or dump site: "
                "there it is not credited as suppression too.",
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
    };
    return table({"rating_missing", "What the assessor will ask for and the data lack",
                  "Missing evidence is listed, never filled in."},
                 std::move(columns), list->size());
}

}  // namespace farwater::reports
