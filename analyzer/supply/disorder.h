// The flow of a shuttle in which everything goes as irregularly as it well can.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// The long-run flow when every fill, every offload and every drive takes as scattered a time as
// exponential ones with the same means: for a fixed order of tankers no steadier scatter gives less
// (convex order). Real shuttles scatter by a tenth to a third of the mean, so this is the worst
// plausible disorder past the knee, never the estimate. The tankers of a fill site count as so many
// like their average, with more than three fill sites in use all of them do; storage and starts are
// not seen; flows that are left open are taken at the best. Not above the long-run bound
// (fluid_model.h), which sees the sources' volume. Zero without tankers.
// Precondition: the window's duration is positive.
// Exact mean value analysis, closed_queue.h: microseconds to a few milliseconds.
Flow disorder_flow(const Incident& incident, Window window);

}  // namespace farwater::supply
