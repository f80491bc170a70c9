// How much of a portable tank a strainer can reach.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// Nominal volume less the layer below the strainer, for straight walls: nominal x (1 - heel /
// depth). 2,500 gal, 29.7 in deep, 2 in heel: 2,332 gal. Zero when the heel is as deep as the tank.
Volume usable_of_portable_tank(Volume nominal, Length depth, Length heel);

}  // namespace farwater::hydraulics
