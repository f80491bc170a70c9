// What the layers say of a place under the terms of the rating, and of the plan that it rests on.
#include <iterator>
#include <string>
#include <utility>

#include "reports/rating/rating_tables.h"

namespace farwater::reports {
namespace {

using rating::PlaceRating;

std::vector<ColumnOf> columns_of_place(const Findings& findings) {
    const auto of = [rating = findings.rating](std::size_t row) -> const PlaceRating& {
        return rating->places[row];
    };
    const auto rated = [of](std::size_t row) {
        return of(row).category != rating::Category::no_building;
    };
    return {
        text("rating_category",
             "What the terms of the insurance rating call it, in their own words.",
             [of, rating = findings.rating](std::size_t row) {
                 return value_of(category_word(rating->terms, of(row).category));
             }),
        text("rating_fails_first",
             "Which of the terms it fails first: nothing, station_miles, not_known, source, "
             "minimum_flow, start, gap.",
             [of, rated](std::size_t row) {
                 return rated(row) ? io::Value{word(of(row).fails)} : io::Value{};
             }),
        real("credited_gpm",
             "Flow that the terms credit there, gpm, in the worst season and period.",
             [of, rated](std::size_t row) {
                 return rated(row) ? value_of(of(row).credited) : io::Value{};
             }),
        text("creditable_source_id", "Nearest source by hose that counts for rating.",
             [of, &district = findings.district](std::size_t row) {
                 return of(row).nearest.valid() ? value_of(at(district.sources, of(row).nearest).id)
                                                : io::Value{};
             }),
        real(
            "creditable_hose_ft", "Hose to it along roads and drives, feet.",
            [of](std::size_t row) { return value_of(of(row).hose_ft); }, 0),
        real("rating_start_min",
             "When the terms' minimum flow begins with the apparatus and sources that count, "
             "minutes by the terms' clock; empty: not within the late horizon.",
             [of](std::size_t row) { return value_of(of(row).start); }),
    };
}

ColumnOf source_column(std::string name, std::string description, const Findings& findings,
                       SourceIndex (*source_of)(const supply::ParcelSupply&)) {
    return text(
        std::move(name), std::move(description),
        [source_of, rating = findings.rating, &district = findings.district](std::size_t row) {
            const SourceIndex source = source_of(rating->brought.supplies[row]);
            return source.valid() ? value_of(at(district.sources, source).id) : io::Value{};
        });
}

std::vector<ColumnOf> columns_of_plan(const Findings& findings) {
    const auto of = [rating = findings.rating](std::size_t row) -> const supply::ParcelSupply& {
        return rating->brought.supplies[row];
    };
    const auto if_brought = [of](std::size_t row, io::Value value) {
        return of(row).mode == SupplyMode::none ? io::Value{} : value;
    };
    return {
        real("rating_gap_min",
             "Minutes without water before that, by the same plan; empty: no supply goes on.",
             [of](std::size_t row) { return value_of(of(row).gap); }),
        text("rating_mode",
             "How the plan that the rating rests on brings water: shuttle, direct, relay.",
             [=](std::size_t row) { return if_brought(row, io::Value{word(of(row).mode)}); }),
        source_column("rating_fill_source_id", "Where its first tanker fills, or its hose begins.",
                      findings, [](const supply::ParcelSupply& plan) { return plan.fill_source; }),
        source_column(
            "rating_second_fill_source_id", "Where tankers fill at the same time.", findings,
            [](const supply::ParcelSupply& plan) { return plan.further_fills[0].source; }),
        source_column(
            "rating_third_fill_source_id", "Likewise.", findings,
            [](const supply::ParcelSupply& plan) { return plan.further_fills[1].source; }),
        integer("rating_tankers", "Tankers in that plan.",
                [=](std::size_t row) {
                    return if_brought(row, value_of_count(std::size_t{of(row).tankers}));
                }),
        text("rating_nursing",
             "yes: by that plan a tanker feeds the engine at the fire by its own pump until the "
             "draft is up.",
             [=](std::size_t row) {
                 return if_brought(row, io::Value{of(row).nurse.valid() ? "yes" : "no"});
             }),
    };
}

}  // namespace

std::vector<ColumnOf> rating_columns(const Findings& findings) {
    if (findings.rating == nullptr) {
        return {};
    }
    std::vector<ColumnOf> columns = columns_of_place(findings);
    std::vector<ColumnOf> of_plan = columns_of_plan(findings);
    columns.insert(columns.end(), std::make_move_iterator(of_plan.begin()),
                   std::make_move_iterator(of_plan.end()));
    return columns;
}

}  // namespace farwater::reports
