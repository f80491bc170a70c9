#include "analyzer/planning/weights.h"

#include <algorithm>
#include <cmath>

#include "analyzer/district/building_areas.h"

namespace farwater::planning {
namespace {

constexpr double most_together = 1e10;

double known_or_nothing(const std::optional<float>& figure) {
    return static_cast<double>(figure.value_or(0.0F));
}

std::vector<double> figures_of(WeighBy by, const District& district) {
    if (by == WeighBy::building_area) {
        return building_areas(district);
    }
    std::vector<double> figures;
    figures.reserve(district.parcels.size());
    for (const Parcel& parcel : district.parcels) {
        figures.push_back(known_or_nothing(by == WeighBy::value ? parcel.value : parcel.people));
    }
    return figures;
}

}  // namespace

bool Weights::all_nothing() const {
    return !of_parcel.empty() &&
           std::ranges::all_of(of_parcel, [](Gain weight) { return weight == 0; });
}

Weights weights_by(WeighBy by, const District& district) {
    Weights weights{.by = by};
    if (by == WeighBy::parcels) {
        return weights;
    }
    const std::vector<double> figures = figures_of(by, district);
    double sum = 0.0;
    for (std::size_t row = 0; row < figures.size(); ++row) {
        sum += figures[row];
        weights.not_known += district.parcels[row].improved && figures[row] <= 0.0 ? 1U : 0U;
    }
    while (sum / weights.unit > most_together) {
        weights.unit *= 10.0;
    }
    for (const double figure : figures) {
        weights.of_parcel.push_back(std::llround(figure / weights.unit));
    }
    return weights;
}

Covered covered_by(std::span<const Change> changes, const District& district,
                   std::span<const double> building_areas) {
    Covered covered;
    if (std::ranges::any_of(district.parcels,
                            [](const Parcel& p) { return p.value.has_value(); })) {
        covered.value = 0.0;
    }
    if (std::ranges::any_of(district.parcels,
                            [](const Parcel& p) { return p.people.has_value(); })) {
        covered.people = 0.0;
    }
    for (const Change& change : changes) {
        const double sign = change.newly_held() - change.no_longer_held();
        const Parcel& parcel = district.parcels[change.row];
        covered.building_sqft += sign * building_areas[change.row];
        if (covered.value) {
            *covered.value += sign * known_or_nothing(parcel.value);
        }
        if (covered.people) {
            *covered.people += sign * known_or_nothing(parcel.people);
        }
    }
    return covered;
}

}  // namespace farwater::planning
