#include "reports/rating/rating_totals.h"

#include <algorithm>

namespace farwater::reports {
namespace {

constexpr double square_feet_per_square_metre = 1.0 / (metres_per_foot * metres_per_foot);

// Square feet of buildings per parcel: of all where they were kept, else of the largest.
std::vector<double> building_areas(const District& district) {
    std::vector<double> areas(district.parcels.size(), 0.0);
    for (const Building& building : district.buildings) {
        at(areas, building.parcel) += static_cast<double>(building.area_m2);
    }
    for (std::size_t i = 0; i < areas.size(); ++i) {
        const auto largest = static_cast<double>(district.parcels[i].building_area_m2);
        areas[i] = std::max(areas[i], largest) * square_feet_per_square_metre;
    }
    return areas;
}

}  // namespace

std::vector<RatingTotal> rating_totals(
    const Findings& findings, std::size_t groups,
    const std::function<std::size_t(const rating::PlaceRating&)>& group) {
    std::vector<RatingTotal> totals(groups);
    const std::vector<double> areas = building_areas(findings.district);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const rating::PlaceRating& place = findings.rating->places[row];
        if (place.category == rating::Category::no_building) {
            continue;
        }
        const Parcel& parcel = findings.district.parcels[row];
        RatingTotal& total = totals[group(place)];
        ++total.parcels;
        total.buildings += std::max<std::size_t>(1, parcel.buildings);
        total.area_sqft += areas[row];
        if (parcel.value) {
            total.value = total.value.value_or(0.0) + static_cast<double>(*parcel.value);
        } else {
            ++total.without_value;
        }
    }
    return totals;
}

std::vector<RatingTotal> totals_by_category(const Findings& findings) {
    return rating_totals(findings, rating::category_count, [](const rating::PlaceRating& place) {
        return static_cast<std::size_t>(place.category);
    });
}

std::vector<RatingTotal> totals_by_reason(const Findings& findings) {
    return rating_totals(
        findings, rating::words_of(rating::Fails{}).size(),
        [](const rating::PlaceRating& place) { return static_cast<std::size_t>(place.fails); });
}

}  // namespace farwater::reports
