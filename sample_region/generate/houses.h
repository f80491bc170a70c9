// Who lives where: the use of every holding, its buildings, its driveway and its address.
#pragma once

#include <cstdint>

#include "sample_region/generate/segment_index.h"
#include "sample_region/generate/township.h"

namespace farwater::sample {

// Fills in everything of the holdings but lot, shape and inside point. `roads` holds the township's
// road lines by their index.
void settle(Township& township, const SegmentIndex& roads, std::uint64_t tile_seed);

}  // namespace farwater::sample
