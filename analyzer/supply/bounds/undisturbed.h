// What one tanker could bring if nobody ever stood in its way: where bounds on a shuttle begin.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// Minutes and gallons.
struct Undisturbed {
    double first_load = 0.0;   // in by the end
    double later_loads = 0.0;  // the same
    double from_place = 0.0;   // the least time from leaving a fill place to the first gallon in
    double in_place = 0.0;     // a fill, from connecting to leaving
};

// By `end`, in minutes since the alarm. A tanker that can nurse may be quicker by nursing than by
// offloading, so where one nurses either is taken at its best.
Undisturbed undisturbed(const Incident& incident, const Tanker& tanker, double end);

}  // namespace farwater::supply
