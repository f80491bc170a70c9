// The slow twin of what a source gives: each rule written down as it is read, in feet and gpm, the
// suction flow by bisection.
#pragma once

#include "analyzer/district/district.h"

namespace farwater::slow {

struct Giving {
    double into_any_pump = 0.0;  // gpm; 0 = it does not count
    double pump_share = 1.0;     // of the pump's rating at that lift
    double gallons = 0.0;        // very many where unlimited; 0 = it does not count
};

// Standing and use are not looked at.
Giving giving(const District& district, const WaterSource& source);

}  // namespace farwater::slow
