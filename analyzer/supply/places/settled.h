// What is known of a parcel's or target's supply before a dump site comes into it.
#pragma once

#include <cstddef>
#include <optional>

#include "analyzer/district/need.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// No building, not known and why, unreached, or no lay of hose; none = a case decides. `row` is the
// parcel's or target's, the arrival that of the first engine at the house. O(units).
std::optional<ParcelSupply> settled(const Situation& situation, const std::optional<Need>& need,
                                    std::size_t row, DriveTime first_arrival);

}  // namespace farwater::supply
