#include "analyzer/hydraulics/hydrant_flow.h"

#include <array>
#include <cmath>

namespace farwater::hydraulics {
namespace {

constexpr double exponent = 0.54;         // 1 / 1.85 of Hazen and Williams
constexpr double pitot_constant = 29.84;  // gpm, inches, psi
constexpr std::array least_gpm{1500.0, 1000.0, 500.0, 0.0};

}  // namespace

Flow pitot_flow(double pitot_psi, Length outlet, double coefficient) {
    const double bore = in_inches(outlet);
    if (!(pitot_psi > 0.0)) {
        return gpm(0);
    }
    return gpm(pitot_constant * coefficient * bore * bore * std::sqrt(pitot_psi));
}

bool is_possible(const FlowTest& test) {
    return test.residual_psi >= 0.0 && test.residual_psi < test.static_psi && test.flow > gpm(0);
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
