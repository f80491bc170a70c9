// Hose from water sources to houses, for direct supply and relay.
#pragma once

#include <span>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/drive_times.h"

namespace farwater::routing {

// Per parcel, then per target: the nearest fill site of each strength class within relay_reach of
// hose, as RoundTrips::source_lays says. Hose lies from the source straight to its road, along
// roads and drives of every class, then the setback; where there is no setback (hose_lays.h) there
// is no lay. Lengths are whole millimetres. One bounded search per fill site. Incomplete when
// stopped.
Lists<SourceLay> find_source_lays(const RoadSystem& roads,
                                  std::span<const FillSitePlace> fill_sites, const Work& work);

}  // namespace farwater::routing
