#include "sample_region/generate/noise.h"

#include <cmath>

#include "sample_region/generate/random.h"
#include "sample_region/generate/shapes.h"

namespace farwater::sample {
namespace {

double lattice(std::uint64_t seed, double column, double row) {
    const auto a = static_cast<std::uint64_t>(static_cast<std::int64_t>(column));
    const auto b = static_cast<std::uint64_t>(static_cast<std::int64_t>(row));
    return 2 * unit_of(mixed(seed, a, b)) - 1;
}

double faded(double t) { return t * t * t * (t * (t * 6 - 15) + 10); }

}  // namespace

double noise(std::uint64_t seed, Point p, double wavelength) {
    // Turned by the 3-4-5 triangle, so that the lattice does not show as north-south ridges.
    const Point turned = Point{0.8 * p.x - 0.6 * p.y, 0.6 * p.x + 0.8 * p.y} * (1 / wavelength);
    const double column = std::floor(turned.x);
    const double row = std::floor(turned.y);
    const double u = faded(turned.x - column);
    const double v = faded(turned.y - row);
    const double low = lattice(seed, column, row) * (1 - u) + lattice(seed, column + 1, row) * u;
    const double high =
        lattice(seed, column, row + 1) * (1 - u) + lattice(seed, column + 1, row + 1) * u;
    return low * (1 - v) + high * v;
}

double rough_noise(std::uint64_t seed, Point p, double wavelength, int octaves) {
    double sum = 0;
    double height = 1;
    for (int octave = 0; octave < octaves; ++octave) {
        sum += height * noise(mixed(seed, static_cast<std::uint64_t>(octave)), p, wavelength);
        height /= 2;
        wavelength /= 2;
    }
    return sum / 1.6;
}

}  // namespace farwater::sample
