#include "analyzer/hydraulics/suction.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace farwater::hydraulics {
namespace {

constexpr double most_drafted_gpm = 10000.0;
constexpr int most_steps = 60;
constexpr double feet_per_second = 0.40853;  // of 1 gpm in a bore of 1 in
constexpr double twice_gravity = 64.348;     // ft/s^2
constexpr double manning_factor = 1.486;
constexpr double hazen_williams_factor = 10.472;
constexpr double flow_exponent = 1.852;
constexpr double bore_exponent = 4.871;

constexpr std::array roughness{Roughness{0.010, 150.0}, Roughness{0.012, 120.0},
                               Roughness{0.013, 140.0}, Roughness{0.015, 100.0}};

double manning_per_square(const SuctionPipe& pipe) {
    const double bore = in_inches(pipe.diameter);
    const double velocity = feet_per_second / (bore * bore);
    const double n = pipe.roughness.manning_n;
    const double radius_ft = bore / 48.0;
    return in_feet(pipe.length) * n * n * velocity * velocity /
           (manning_factor * manning_factor * std::pow(radius_ft, 4.0 / 3.0));
}

double hazen_williams_per_power(const SuctionPipe& pipe) {
    return hazen_williams_factor * in_feet(pipe.length) /
           (std::pow(pipe.roughness.hazen_williams_c, flow_exponent) *
            std::pow(in_inches(pipe.diameter), bore_exponent));
}

double velocity_per_square(Length diameter) {
    const double bore = in_inches(diameter);
    const double velocity = feet_per_second / (bore * bore);
    return velocity * velocity / twice_gravity;
}

// Loss in ft as `square` Q^2 + `power` Q^1.852.
struct Curve {
    double square = 0.0;
    double power = 0.0;

    double at(double q) const { return square * q * q + power * std::pow(q, flow_exponent); }
    double slope(double q) const {
        return 2.0 * square * q + flow_exponent * power * std::pow(q, flow_exponent - 1.0);
    }
};

Curve curve_of(const SuctionLine& line, bool manning) {
    Curve curve;
    curve.square =
        in_feet(line.entrance_at_500) / (500.0 * 500.0) + velocity_per_square(line.hose.diameter);
    if (manning) {
        curve.square += manning_per_square(line.pipe) + manning_per_square(line.hose);
    } else {
        curve.power = hazen_williams_per_power(line.pipe) + hazen_williams_per_power(line.hose);
    }
    return curve;
}

double flow_of_curve(const Curve& curve, double head_ft) {
    double q = most_drafted_gpm;
    for (int step = 0; step < most_steps; ++step) {
        const double over = curve.at(q) - head_ft;
        if (over <= 0.0) {
            break;
        }
        const double less = over / curve.slope(q);
        q -= less;
        if (less <= 1e-9 * q) {
            break;
        }
    }
    return std::max(0.0, q);
}

}  // namespace

Roughness roughness_of(PipeMaterial material) {
    return roughness[static_cast<std::size_t>(material)];
}

Length manning_loss(const SuctionPipe& pipe, Flow flow) {
    return feet(manning_per_square(pipe) * in_gpm(flow) * in_gpm(flow));
}

Length hazen_williams_loss(const SuctionPipe& pipe, Flow flow) {
    return feet(hazen_williams_per_power(pipe) * std::pow(in_gpm(flow), flow_exponent));
}

Length velocity_head(Length diameter, Flow flow) {
    return feet(velocity_per_square(diameter) * in_gpm(flow) * in_gpm(flow));
}

Length suction_loss(const SuctionLine& line, Flow flow, SuctionFriction formula) {
    const double q = in_gpm(flow);
    const double manning = curve_of(line, true).at(q);
    const double hazen_williams = curve_of(line, false).at(q);
    switch (formula) {
        case SuctionFriction::manning:
            return feet(manning);
        case SuctionFriction::hazen_williams:
            return feet(hazen_williams);
        case SuctionFriction::conservative:
            break;
    }
    return feet(std::max(manning, hazen_williams));
}

std::optional<Flow> suction_flow(const SuctionLine& line, Length lift, Length head,
                                 SuctionFriction formula) {
    const double left_ft = in_feet(head - lift);
    if (!(left_ft > 0.0)) {
        return std::nullopt;
    }
    double least = most_drafted_gpm;
    if (formula != SuctionFriction::hazen_williams) {
        least = std::min(least, flow_of_curve(curve_of(line, true), left_ft));
    }
    if (formula != SuctionFriction::manning) {
        least = std::min(least, flow_of_curve(curve_of(line, false), left_ft));
    }
    return gpm(least);
}

}  // namespace farwater::hydraulics
