// How much of a portable tank a strainer can reach.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// Nominal volume less the layer below the strainer, for straight walls, and less what runs over the
// lower side on a slope: nominal x (1 - heel / depth - slope_loss). 2,500 gal, 29.7 in deep, 2 in
// heel: 2,332 gal level, 2,107 gal with a loss of 9 % (3 % per 1 % of grade on 3 %; common
// practice, no source). Zero when nothing is left.
Volume usable_of_portable_tank(Volume nominal, Length depth, Length heel, double slope_loss);

}  // namespace farwater::hydraulics
