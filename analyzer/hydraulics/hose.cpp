#include "analyzer/hydraulics/hose.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace farwater::hydraulics {
namespace {

constexpr std::array coefficients{2.0, 0.8, 0.2, 0.08};
constexpr double most_gpm = 10000.0;

}  // namespace

double friction_coefficient(HoseSize size) { return coefficients[static_cast<std::size_t>(size)]; }

Flow supply_line_flow(HoseSize size, Length length, Length rise, double discharge_psi,
                      double residual_psi) {
    const double uphill_psi = std::max(0.0, in_feet(rise)) * psi_per_foot_of_water;
    const double spent_psi = discharge_psi - residual_psi - uphill_psi;
    if (spent_psi <= 0.0) {
        return gpm(0);
    }
    const double per_square = friction_coefficient(size) * in_feet(length) / 100.0;
    if (per_square <= 0.0) {
        return gpm(most_gpm);
    }
    return gpm(std::min(most_gpm, 100.0 * std::sqrt(spent_psi / per_square)));
}

}  // namespace farwater::hydraulics
