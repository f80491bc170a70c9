// Water from input layers: sources that somebody vouches for, and water that is only mapped.
#pragma once

#include "analyzer/district/plane.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/water.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// Words that cannot be read get the most cautious meaning; a kind that cannot be read sets the
// record aside, and so does an id that an earlier record has. Throws what for_each_record throws.
LayerRows<WaterSource> read_water_sources(const LayerSource& source, const WorkingCrs& crs,
                                          const Box& parcels, const Work& work);
LayerRows<MappedWater> read_mapped_water(const LayerSource& source, const WorkingCrs& crs,
                                         const Box& parcels, const Work& work);

// Sources as they would be built. They are declared, by nobody; it is for the asker to count them.
LayerRows<ProposedSource> read_proposals(const LayerSource& source, const WorkingCrs& crs,
                                         const Box& parcels, const Work& work);

// As read_water_sources; each is a problem, source_hypothetical.
LayerRows<WaterSource> read_what_if_sources(const LayerSource& source, const WorkingCrs& crs,
                                            const Box& parcels, const Work& work);

}  // namespace farwater::io
