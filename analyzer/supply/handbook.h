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

// A flow that no order of dispatch can exceed over a long run (utilisation law per resource): the
// flow cap, the handbook sum, and for each resource (places, flow lines, pump and source volume of
// the fill sites, offload slots) the best mix of tankers that fits into it, each at most as often
// as its undisturbed cycle allows. One resource at a time, so it is not the least bound there is.
// Over a short window water that is stored or rolling at the start may exceed it: see window_bound.
// Precondition: the window's duration is positive. O(tankers x log tankers) per resource.
Flow resource_bound(const Incident& incident, Window window);

}  // namespace farwater::supply
