#include "analyzer/hydraulics/suction_head.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace farwater::hydraulics {
namespace {

constexpr double sea_level_ft = 33.96;
constexpr double lapse_per_ft = 6.8756e-6;
constexpr double lapse_exponent = 5.2559;
constexpr double psi_per_hectopascal = 0.0145037738;
constexpr double cool_fahrenheit = 60.0;  // of the water that the table of practical lifts means

struct LiftRow {
    double altitude_ft, lift_ft;
};
constexpr std::array lifts{LiftRow{0, 22},    LiftRow{1320, 21}, LiftRow{2640, 20},
                           LiftRow{3960, 18}, LiftRow{5280, 17}, LiftRow{6600, 16},
                           LiftRow{7920, 15}, LiftRow{10560, 14}};

}  // namespace

Length atmospheric_head(Length altitude) {
    const double thinned = std::max(0.0, 1.0 - lapse_per_ft * in_feet(altitude));
    return feet(sea_level_ft * std::pow(thinned, lapse_exponent));
}

Length vapour_head(double fahrenheit) {
    const double celsius = (fahrenheit - 32.0) / 1.8;
    const double hectopascal = 6.1094 * std::exp(17.625 * celsius / (celsius + 243.04));
    return feet(hectopascal * psi_per_hectopascal / psi_per_foot_of_water);
}

Length practical_lift(Length altitude) {
    const double at = in_feet(altitude);
    if (at <= lifts.front().altitude_ft) {
        return feet(lifts.front().lift_ft);
    }
    for (std::size_t i = 1; i < lifts.size(); ++i) {
        const LiftRow& low = lifts[i - 1];
        const LiftRow& high = lifts[i];
        if (at <= high.altitude_ft) {
            const double share = (at - low.altitude_ft) / (high.altitude_ft - low.altitude_ft);
            return feet(low.lift_ft + share * (high.lift_ft - low.lift_ft));
        }
    }
    return feet(lifts.back().lift_ft) *
           (atmospheric_head(altitude) / atmospheric_head(feet(lifts.back().altitude_ft)));
}

Length suction_head_limit(Length planning_limit, Length altitude, double fahrenheit) {
    const Length warm = std::max(feet(0), vapour_head(fahrenheit) - vapour_head(cool_fahrenheit));
    return std::max(feet(0), std::min(planning_limit, practical_lift(altitude) - warm));
}

}  // namespace farwater::hydraulics
