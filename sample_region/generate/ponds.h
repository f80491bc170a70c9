// Ponds on top of the land: some beside roads, most behind.
#pragma once

#include <cstdint>
#include <vector>

#include "sample_region/generate/names.h"
#include "sample_region/generate/segment_index.h"
#include "sample_region/generate/township.h"

namespace farwater::sample {

// Clear of roads, buildings, drives, the river, lakes and each other. Roadside ponds come first.
std::vector<Pond> dig_ponds(const Township& township, const SegmentIndex& roads,
                            std::uint64_t tile_seed, Names& names);

}  // namespace farwater::sample
