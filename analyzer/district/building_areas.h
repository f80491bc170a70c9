// How much building stands on each parcel.
#pragma once

#include <vector>

#include "analyzer/district/district.h"

namespace farwater {

// Square feet per parcel: of all its buildings where they were kept, else of the largest; 0 where
// not known. O(parcels + buildings).
std::vector<double> building_areas(const District& district);

}  // namespace farwater
