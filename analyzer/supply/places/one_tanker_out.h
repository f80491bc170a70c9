// What a shuttle holds when one tanker stays in quarters: its loads are missing, and so are the
// portable tanks and the siphon that it carries.
#pragma once

#include <vector>

#include "analyzer/supply/incident.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/scene.h"

namespace farwater::supply {

// The flow that the others hold, from the same start, as they are run; where tanks stand later
// without it, also with one of them feeding the engine until the draft is up, whichever is more.
// `incident` is of the scene, slowed or not; the tanker need not be in it, for one that stands by
// may bring the only portable tank. One run, and the dump site set up anew.
HeldFlow flow_without(const Situation& situation, const Scene& scene, const Incident& incident,
                      Window window, UnitIndex tanker);

// Those that are run, or bring a portable tank or the siphon; by arrival.
std::vector<UnitIndex> missed_tankers(const Scene& scene, const Incident& incident);

// Without the tanker that is missed most, and no more than `cautious`, which the slowed incident
// holds; 0 for one tanker. About one run for each tanker that is there.
HeldFlow one_tanker_out(const Situation& situation, const Scene& scene, const Incident& slow,
                        Window window, HeldFlow cautious);

}  // namespace farwater::supply
