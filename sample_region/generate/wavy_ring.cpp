#include "sample_region/generate/wavy_ring.h"

#include "sample_region/generate/noise.h"

namespace farwater::sample {

// The directions of a circle come from the rational parametrisation (1 - t^2, 2t) / (1 + t^2),
// which needs no sines.
Polyline wavy_ring(Point centre, Point axis, double half_long, double half_short, int steps,
                   std::uint64_t seed) {
    Polyline ring;
    for (int quarter = 0; quarter < 4; ++quarter) {
        for (int step = 0; step < steps; ++step) {
            const double t = static_cast<double>(step) / steps;
            Point direction{(1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)};
            for (int turn = 0; turn < quarter; ++turn) {
                direction = left_of(direction);
            }
            const double wave = 1 + 0.42 * rough_noise(seed, direction * 1.6, 1, 3);
            const Point local{direction.x * half_long * wave, direction.y * half_short * wave};
            ring.push_back(centre + axis * local.x + left_of(axis) * local.y);
        }
    }
    return ring;
}

}  // namespace farwater::sample
