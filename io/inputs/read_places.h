// Named points from input layers: stations, targets, the officer's dump site places, turnarounds.
#pragma once

#include "analyzer/district/apparatus.h"
#include "analyzer/district/parcel.h"
#include "analyzer/district/plane.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// Throw what for_each_record throws. A station whose id an earlier one has is set aside.
LayerRows<Station> read_stations(const LayerSource& source, const WorkingCrs& crs,
                                 const Box& parcels, const Work& work);
LayerRows<Target> read_targets(const LayerSource& source, const WorkingCrs& crs, const Box& parcels,
                               const Work& work);
LayerRows<DumpSitePlace> read_dump_site_places(const LayerSource& source, const WorkingCrs& crs,
                                               const Box& parcels, const Work& work);
LayerRows<Turnaround> read_turnarounds(const LayerSource& source, const WorkingCrs& crs,
                                       const Box& parcels, const Work& work);

}  // namespace farwater::io
