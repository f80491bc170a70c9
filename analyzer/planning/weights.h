// What a property counts for when places are chosen, and what properties are worth that gain.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/planning/gains.h"

namespace farwater::planning {

// Whole numbers, so that sums of weighted gains do not depend on their order. A property of which
// the figure is not known counts for nothing.
struct Weights {
    WeighBy by = WeighBy::parcels;
    std::vector<Gain> of_parcel;  // empty: 1 each
    double unit = 1.0;            // of a weight: parcels, square feet, money, people
    std::size_t not_known = 0;    // parcels with a building, without the figure

    Gain of(std::uint32_t row) const { return of_parcel.empty() ? 1 : of_parcel[row]; }
    bool all_nothing() const;  // and so is every gain
};

// Weights are at most 1e10 together (their unit grows by tens), so that weighted gains of 1e5
// tenths of a gpm each are exact in a double.
Weights weights_by(WeighBy by, const District& district);

// What stands on the parcels that newly meet their planned flow, less those that no longer do.
struct Covered {
    double building_sqft = 0.0;
    std::optional<double> value, people;  // none: not known of any parcel of the district
};
Covered covered_by(std::span<const Change> changes, const District& district,
                   std::span<const double> building_areas);

}  // namespace farwater::planning
