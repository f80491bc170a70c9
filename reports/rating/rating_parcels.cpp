// Every parcel's rating as a table, row by row: what the totals are added up from.
#include <algorithm>
#include <iterator>
#include <memory>
#include <utility>

#include "analyzer/district/building_areas.h"
#include "reports/rating/rating_tables.h"

namespace farwater::reports {
namespace {

std::vector<ColumnOf> columns_of_property(const Findings& findings, const AddressOf& address) {
    const auto parcel = [&district = findings.district](std::size_t row) -> const Parcel& {
        return district.parcels[row];
    };
    const auto improved = [rating = findings.rating](std::size_t row) {
        return rating->places[row].category != rating::Category::no_building;
    };
    const auto areas =
        std::make_shared<const std::vector<double>>(building_areas(findings.district));
    return {
        text("parcel_id", "Parcel.",
             [parcel](std::size_t row) { return value_of(parcel(row).id); }),
        text("address", "Its address, where the data give one.",
             [address](std::size_t row) { return value_of(address(row)); }),
        integer("buildings", "Buildings on it; one where the data tell no number.",
                [parcel, improved](std::size_t row) {
                    return improved(row)
                               ? value_of_count(std::max<std::size_t>(1, parcel(row).buildings))
                               : io::Value{};
                }),
        real(
            "building_area_sqft", "Footprints of its buildings, square feet, where known.",
            [areas, improved](std::size_t row) {
                return improved(row) && (*areas)[row] > 0.0 ? io::Value{(*areas)[row]}
                                                            : io::Value{};
            },
            0),
        real(
            "value", "Its value where the parcels give one, in the district's money.",
            [parcel, improved](std::size_t row) {
                return improved(row) && parcel(row).value
                           ? io::Value{static_cast<double>(*parcel(row).value)}
                           : io::Value{};
            },
            0),
    };
}

// Of what it is credited, and in which season and period that is least.
std::vector<ColumnOf> columns_of_credit(const Findings& findings) {
    const auto of = [rating = findings.rating](std::size_t row) -> const rating::PlaceRating& {
        return rating->places[row];
    };
    const auto if_rated = [of](std::size_t row, io::Value value) {
        return of(row).category == rating::Category::no_building ? io::Value{} : value;
    };
    const auto variant = [rating = findings.rating](std::size_t row) -> const supply::Variant& {
        const supply::Assessment& brought = rating->brought;
        return brought.variants[brought.worst_variant[row]].variant;
    };
    return {
        real(
            "rating_station_mi", "Road miles from an own station, in the season that is shown.",
            [of](std::size_t row) { return value_of(of(row).station_mi); }, 2),
        real("by_hose_gpm", "What hose from a source is credited with, gpm.",
             [=](std::size_t row) { return if_rated(row, value_of(of(row).by_hose)); }),
        real("by_apparatus_gpm", "What apparatus brings, as far as the terms credit it, gpm.",
             [=](std::size_t row) { return if_rated(row, value_of(of(row).held)); }),
        text("rating_season", "Season in which it is rated worst, the one shown.",
             [=, &district = findings.district](std::size_t row) {
                 return if_rated(row, value_of(at(district.seasons, variant(row).season).name));
             }),
        text("rating_period", "Period in which it is rated worst, the one shown.",
             [=, &district = findings.district](std::size_t row) {
                 return if_rated(row, value_of(at(district.periods, variant(row).period).name));
             }),
    };
}

}  // namespace

io::FeatureTable rating_parcels(const Findings& findings, const AddressOf& address) {
    std::vector<ColumnOf> columns = columns_of_property(findings, address);
    std::ranges::move(rating_columns(findings), std::back_inserter(columns));
    std::ranges::move(columns_of_credit(findings), std::back_inserter(columns));
    return table({"rating_parcels", "Every parcel under the terms of the rating",
                  "Worst season and period of each. The rating organisation decides."},
                 std::move(columns), findings.parcels());
}

}  // namespace farwater::reports
