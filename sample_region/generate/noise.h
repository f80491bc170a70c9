// Smooth random height fields over the whole plane, the same from every tile's point of view.
#pragma once

#include <cstdint>

#include "analyzer/district/plane.h"

namespace farwater::sample {

// Between -1 and 1; bumps are about `wavelength` metres wide. O(1).
double noise(std::uint64_t seed, Point p, double wavelength);
// Several octaves on top of each other, each half as wide and half as high; about -1 to 1.
double rough_noise(std::uint64_t seed, Point p, double wavelength, int octaves);

}  // namespace farwater::sample
