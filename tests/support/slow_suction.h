// The slow twin of suction lines: losses added up bore by bore in metric units, the flow found by
// bisection.
#pragma once

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::slow {

// One bore, everything in metres; n of Manning, C of Hazen and Williams.
struct Bore {
    double length = 0.0, diameter = 0.0;
    double n = 0.010, c = 150.0;
};

struct Suction {
    Bore pipe, hose;
    double entrance_at_500 = 0.0;  // metres of water at 500 gpm
};

// Metres of water that `gpm` loses on its way, velocity head included.
double metres_lost(const Suction& line, double gpm, SuctionFriction formula);

// The most, in gpm up to 10,000, whose losses `metres_left` can bear; 0 when there is nothing left.
double drawn(const Suction& line, double metres_left, SuctionFriction formula);

}  // namespace farwater::slow
