// What no way of dispatching can exceed over the window that is asked for.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// No flow above this holds from window.start for window.duration, in whatever order tankers are
// filled and offloaded: by the window's end no more water can be there than the engine's own tank,
// the first loads, and refilled loads as far as each tanker's own time, the places, flow lines,
// pump and water of its fill site, and the offload slots allow all of them together. Unlike the
// bounds of a long run it counts what rolls and stands at the start, and that nothing moves before
// its time. Flow lines that are left open count at their best. Not above the window bound
// (incident_run.h), which looks at one resource at a time and sees the initial attack. Proved,
// never below the sustained flow; what lies between is what a better order could gain at most.
// Precondition: the window's duration is positive. One linear program, about 100 microseconds.
Flow dispatch_bound(const Incident& incident, Window window);

}  // namespace farwater::supply
