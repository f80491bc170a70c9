// What can be drawn from a pond or a cistern.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// 1 ft of water on one acre: 43,560 cubic feet of 7.48052 gal.
Volume volume_of(Area area, Length depth);

// Depth that can be drawn down: what stands over the intake less what the strainer needs above it
// (else it draws air) and less what the surface loses to ice. Never negative.
// Source: Idaho rating bureau, "Dry Hydrants": 2 ft above the suction point, and 2 ft at the
// surface where it is not protected from frost.
Length usable_depth(Length over_intake, Length over_strainer, Length surface_loss);

}  // namespace farwater::hydraulics
