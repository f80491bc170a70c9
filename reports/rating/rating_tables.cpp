#include "reports/rating/rating_tables.h"

#include <cmath>
#include <memory>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "reports/need_columns.h"
#include "reports/rating/rating_totals.h"

namespace farwater::reports {
namespace {

io::Value whole_if_known(std::optional<double> number) {
    return number ? io::Value{std::round(*number)} : io::Value{};
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
    const auto possible = std::make_shared<const std::vector<rating::Category>>(
        possible_categories(findings.rating->terms));
    const auto totals = std::make_shared<const std::vector<RatingTotal>>([&] {
        const auto all = totals_by_category(findings);
        std::vector<RatingTotal> of_possible;
        for (const rating::Category each : *possible) {
            of_possible.push_back(all[static_cast<std::size_t>(each)]);
        }
        return of_possible;
    }());
    const auto category = [possible](std::size_t row) { return (*possible)[row]; };
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

}  // namespace farwater::reports
