// What no choice among the tankers of an incident can exceed.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// With one tanker that nurses, where one can.
Incident with_nursing(Incident incident);

// The largest flow, in whole tenths of a gpm, that some of the tankers, with or without one that
// nurses, may hold: the window bound (incident_run.h) of all of them, which is never larger with
// fewer, with one that nurses where one can. Proved, not tight. Precondition: the duration is
// positive. A fraction of one run.
HeldFlow choice_bound(const Incident& incident, Window window);

}  // namespace farwater::supply
