#include "analyzer/district/building_areas.h"

#include <algorithm>

namespace farwater {

std::vector<double> building_areas(const District& district) {
    constexpr double square_feet_per_square_metre = 1.0 / square_metres_per_square_foot;
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

}  // namespace farwater
