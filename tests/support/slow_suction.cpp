#include "tests/support/slow_suction.h"

#include <algorithm>
#include <cmath>

namespace farwater::slow {
namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double gravity = 9.80665;
constexpr double most_gpm = 10000.0;

double cubic_metres_per_second(double gpm) { return gpm * 231.0 * 0.0254 * 0.0254 * 0.0254 / 60.0; }

double speed(double gpm, double diameter) {
    return cubic_metres_per_second(gpm) / (pi * diameter * diameter / 4.0);
}

// v = R^(2/3) S^(1/2) / n, solved for S.
double manning(const Bore& bore, double gpm) {
    const double v = speed(gpm, bore.diameter);
    return bore.length * bore.n * bore.n * v * v / std::pow(bore.diameter / 4.0, 4.0 / 3.0);
}

// h = 10.67 L Q^1.852 / (C^1.852 d^4.871), the metric form.
double hazen_williams(const Bore& bore, double gpm) {
    return 10.67 * bore.length * std::pow(cubic_metres_per_second(gpm) / bore.c, 1.852) /
           std::pow(bore.diameter, 4.871);
}

}  // namespace

double metres_lost(const Suction& line, double gpm, SuctionFriction formula) {
    const double v = speed(gpm, line.hose.diameter);
    const double rest =
        line.entrance_at_500 * (gpm / 500.0) * (gpm / 500.0) + v * v / (2.0 * gravity);
    const double by_manning = rest + manning(line.pipe, gpm) + manning(line.hose, gpm);
    const double by_hazen = rest + hazen_williams(line.pipe, gpm) + hazen_williams(line.hose, gpm);
    if (formula == SuctionFriction::manning) {
        return by_manning;
    }
    return formula == SuctionFriction::hazen_williams ? by_hazen : std::max(by_manning, by_hazen);
}

double drawn(const Suction& line, double metres_left, SuctionFriction formula) {
    double low = 0.0;
    double high = most_gpm;
    if (metres_left <= 0.0) {
        return 0.0;
    }
    for (int step = 0; step < 80; ++step) {
        const double middle = (low + high) / 2.0;
        (metres_lost(line, middle, formula) <= metres_left ? low : high) = middle;
    }
    return low;
}

}  // namespace farwater::slow
