// What a property needs. In this version the need is given: a column of the parcels, else the
// district's default; published methods come from building data and are chosen in the district
// file.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/need.h"

namespace farwater::demand {

// None: the parcel has no building, so it needs nothing and stands in no percentage. O(1).
std::optional<Need> need_of(const Parcel& parcel, const Assumptions& assumptions);
// A target always needs water.
Need need_of(const Target& target, const Assumptions& assumptions);

// Per parcel, then per target. O(parcels).
std::vector<std::optional<Need>> needs_of(const District& district);

}  // namespace farwater::demand
