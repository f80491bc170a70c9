// What every property needs, by the rule that the district file names ([need]): its own column, one
// flow for all, or a published method (analyzer/demand/method.h) for the worst of its buildings.
//
// A parcel's own needed flow goes before a method, for somebody looked at that property; only
// `fixed` passes it over. A parcel of whose buildings one has no known footprint needs at least the
// default flow; where that is more than its other buildings need, no building is the worst.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/need.h"

namespace farwater::demand {

// Per parcel, then per target. None: the parcel has no building, so it needs nothing and stands in
// no percentage. A target always needs water: its own flow, else the default. Precondition:
// district.buildings lie in the order of their parcels. O(parcels + buildings).
std::vector<std::optional<Need>> needs_of(const District& district);
// The same under other rules than the district's.
std::vector<std::optional<Need>> needs_under(const District& district, const NeedRules& rules);

// Access, setback and hose go to the worst building: moves the house of every parcel that has one
// there. An address point stays where it belongs to the worst building, being nearest to it of the
// parcel's buildings.
void move_houses(District& district, std::span<const std::optional<Need>> needs);

// What took a default, one problem per input and layer with the count of parcels.
std::vector<Problem> need_problems(const District& district,
                                   std::span<const std::optional<Need>> needs);

}  // namespace farwater::demand
