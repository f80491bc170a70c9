// What a property needs. In this version the need is given: a column of the parcels, else the
// district's default; published methods come from building data and are chosen in the district file.
#pragma once

#include <optional>

#include "analyzer/district/district.h"

namespace farwater::demand {

struct Need {
    HeldFlow flow;       // whole tenths of a gpm
    Duration duration;   // how long it is needed; the state is judged over it
    Evidence evidence = Evidence::assumed;  // declared when the parcel has a need of its own
};

// None: the parcel has no building, so it needs nothing and stands in no percentage. O(1).
std::optional<Need> need_of(const Parcel& parcel, const Assumptions& assumptions);
// A target always needs water.
Need need_of(const Target& target, const Assumptions& assumptions);

}  // namespace farwater::demand
