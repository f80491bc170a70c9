// What a holding is used for, and the flow that this calls for.
#pragma once

#include "sample_region/generate/random.h"
#include "sample_region/generate/township.h"

namespace farwater::sample {

// `road` is the kind of the lot's road, `from_centre` the distance to the village's centre in
// metres.
Use use_of(const Lot& lot, RoadKind road, double from_centre, Random& random);

// The county's entry in gpm; 0 where it has none, as for most dwellings.
int needed_gpm(const Holding& holding, Random& random);

}  // namespace farwater::sample
