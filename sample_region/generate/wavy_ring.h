// Shores of lakes and ponds.
#pragma once

#include <cstdint>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

// A ring of 4 x `steps` corners around `centre` whose radius waves with the noise, anticlockwise.
// Precondition: axis has length 1, steps >= 1.
Polyline wavy_ring(Point centre, Point axis, double half_long, double half_short, int steps,
                   std::uint64_t seed);

}  // namespace farwater::sample
