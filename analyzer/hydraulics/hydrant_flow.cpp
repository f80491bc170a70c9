#include "analyzer/hydraulics/hydrant_flow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace farwater::hydraulics {
namespace {

constexpr double exponent = 0.54;         // 1 / 1.85 of Hazen and Williams
constexpr double pitot_constant = 29.84;  // gpm, inches, psi
constexpr std::array least_gpm{1500.0, 1000.0, 500.0, 0.0};
constexpr double least_drop = 0.25;  // of the static pressure

constexpr double pumper_outlet_in = 4.0;
constexpr double first_pumper_psi = 2.0;
constexpr std::array pumper_share{0.97, 0.92, 0.89, 0.86, 0.84, 0.83};  // psi after psi

// Straight lines between whole psi.
double share_of_pumper_outlet(double pitot_psi) {
    const double last = static_cast<double>(pumper_share.size() - 1);
    const double along = std::clamp(pitot_psi - first_pumper_psi, 0.0, last);
    const auto below = static_cast<std::size_t>(along);
    const std::size_t above = std::min(below + 1, pumper_share.size() - 1);
    return std::lerp(pumper_share[below], pumper_share[above], along - static_cast<double>(below));
}

}  // namespace

Flow pitot_flow(double pitot_psi, Length outlet, double coefficient) {
    const double bore = in_inches(outlet);
    if (!(pitot_psi > 0.0)) {
        return gpm(0);
    }
    const double full = pitot_constant * coefficient * bore * bore * std::sqrt(pitot_psi);
    return gpm(bore < pumper_outlet_in ? full : full * share_of_pumper_outlet(pitot_psi));
}

bool is_possible(const FlowTest& test) {
    return test.residual_psi >= 0.0 && test.residual_psi < test.static_psi && test.flow > gpm(0);
}

bool drops_enough(const FlowTest& test) {
    return test.static_psi - test.residual_psi >= least_drop * test.static_psi;
}

std::optional<Flow> flow_at_residual(const FlowTest& test, double at_psi) {
    if (!is_possible(test)) {
        return std::nullopt;
    }
    const double left_psi = test.static_psi - at_psi;
    if (left_psi <= 0.0) {
        return gpm(0);
    }
    return test.flow * std::pow(left_psi / (test.static_psi - test.residual_psi), exponent);
}

Flow least_of_class(HydrantColour colour) {
    return gpm(least_gpm[static_cast<std::size_t>(colour)]);
}

}  // namespace farwater::hydraulics
