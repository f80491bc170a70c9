// Response zones by name: what parcels call them, and what the rows of [response_zones] do.
#pragma once

#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/parcel.h"
#include "analyzer/district/problem.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// Gives a zone one name in parcels and rules where they differ by case, blanks, underscores and
// hyphens alone: the same name goes first, and where two could be meant nothing is changed.
// Returns a problem for each zone of parcels that has no rows, and for each of rows that no parcel
// names, with their number. Without rules nothing is done. O(parcels log zones).
std::vector<Problem> match_zones(const LayerSource& parcel_layer, std::vector<Parcel>& parcels,
                                 const LayerSource& zone_layer, std::vector<ResponseRule>& rules);

}  // namespace farwater::io
