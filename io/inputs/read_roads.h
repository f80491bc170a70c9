// Road centrelines from an input layer.
#pragma once

#include "analyzer/district/plane.h"
#include "analyzer/district/road.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// A line of several parts becomes several roads with the same row. What is not known is taken with
// the most cautious meaning: no class = narrow, an access word that cannot be read = gated. Throws
// what for_each_record throws, and InputError when no road touches the parcels' box.
LayerRows<Road> read_roads(const LayerSource& source, const WorkingCrs& crs, const Box& parcels,
                           const Work& work);

}  // namespace farwater::io
