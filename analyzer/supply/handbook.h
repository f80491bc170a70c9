// Flow figures that are quoted beside the incident run's answer, each named for what it is.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// The handbook sum: each tanker's delivered gallons over its own undisturbed cycle, added up.
// It knows no queue, no storage and no start, so it is right below the knee of the fill site and
// too high above it. For rating sheets only.
// Source: Q = 0.9 V / (A + T1 + T2 + B) per tanker, NFPA 1142 annex C (form from memory), and
// "Water Shuttle Operations" (IFSTA Pumping Apparatus Driver/Operator outline) pp. 12-13.
Flow handbook_flow(const Incident& incident);

// One tanker's undisturbed cycle: fill with handling, loaded leg, offload with handling, empty leg.
Duration undisturbed_cycle(const Incident& incident, const Tanker& tanker);

// A flow that no order of dispatch can exceed over a long run (utilisation law per resource),
// solved as bounds per resource: the least of the handbook sum, the fill sites' pumps and places,
// the offload slots and the sources' volume over the window.
Flow resource_bound(const Incident& incident, Window window);

}  // namespace farwater::supply
