#include "tests/support/slow_source.h"

#include <algorithm>
#include <cmath>

#include "tests/support/slow_suction.h"

namespace farwater::slow {
namespace {

constexpr double unlimited = 1e30;

bool proved(const District& district, const WaterSource& source) {
    if (source.standing != Standing::tested || !source.tested_on) {
        return false;
    }
    const double months = source.kind == SourceKind::hydrant
                              ? district.assumptions.hydrant_test_valid_months
                              : district.assumptions.suction_test_valid_months;
    return !district.data_date || (*source.tested_on <= *district.data_date &&
                                   months_between(*source.tested_on, *district.data_date) < months);
}

// --- hydrants -----------------------------------------------------------------------------------

// NFPA 291 (from memory): of the pitot formula, from an outlet of 4 in and more.
double pumper_outlet(double inches, double psi) {
    constexpr double shares[]{0.97, 0.92, 0.89, 0.86, 0.84, 0.83, 0.83};
    if (inches < 4.0 || psi <= 0.0) {
        return 1.0;
    }
    const double along = std::min(std::max(psi, 2.0), 7.0) - 2.0;
    const auto i = static_cast<std::size_t>(along);
    return shares[i] + (shares[i + 1] - shares[i]) * (along - static_cast<double>(i));
}

// The test at the residual pressure that must be left; below zero where there is no usable test.
double by_test(const HydrantData& h, const Assumptions& a) {
    double flowed = -1.0;
    if (h.test_flow) {
        flowed = in_gpm(*h.test_flow);
    } else if (h.pitot_psi && h.outlet) {
        const double inches = in_feet(*h.outlet) * 12.0;
        flowed = 29.84 * h.outlet_coefficient.value_or(a.outlet_coefficient) * inches * inches *
                 std::sqrt(*h.pitot_psi) * pumper_outlet(inches, *h.pitot_psi);
    }
    if (!h.static_psi || !h.residual_psi || flowed <= 0.0 || *h.residual_psi >= *h.static_psi) {
        return -1.0;
    }
    const double left = std::max(0.0, *h.static_psi - a.hydrant_residual_psi);
    const double drop = *h.static_psi - *h.residual_psi;
    const double carried_on = flowed * std::pow(left, 0.54) / std::pow(drop, 0.54);
    return drop < *h.static_psi / 4.0 ? std::min(carried_on, flowed) : carried_on;
}

double by_mark_or_main(const HydrantData& h, const Assumptions& a) {
    const double weak = in_gpm(a.weak_main_rate);
    if (h.colour) {
        return *h.colour == HydrantColour::blue     ? 1500.0
               : *h.colour == HydrantColour::green  ? 1000.0
               : *h.colour == HydrantColour::orange ? 500.0
                                                    : weak;
    }
    const bool strong = h.main && *h.main > a.weak_main && h.dead_end_main == false;
    return strong ? in_gpm(a.hydrant_rate) : std::min(weak, in_gpm(a.hydrant_rate));
}

double hydrant_gives(const WaterSource& source, const Assumptions& a) {
    const HydrantData& h = source.hydrant;
    if (h.static_psi && *h.static_psi <= a.hydrant_residual_psi) {
        return 0.0;
    }
    const double tested = by_test(h, a);
    if (tested >= 0.0) {
        return std::min(tested, source.rate ? in_gpm(*source.rate) : tested);
    }
    return source.rate ? in_gpm(*source.rate) : by_mark_or_main(h, a);
}

// --- suction points -----------------------------------------------------------------------------

// Feet; "Pumps - Suction Head vs. Altitude".
double practical_lift(double altitude) {
    constexpr double heights[]{0, 1320, 2640, 3960, 5280, 6600, 7920, 10560};
    constexpr double lifts[]{22, 21, 20, 18, 17, 16, 15, 14};
    const auto air = [](double z) { return std::pow(1.0 - 6.8756e-6 * z, 5.2559); };
    if (altitude <= 0.0) {
        return 22.0;
    }
    if (altitude >= 10560.0) {
        return 14.0 * air(altitude) / air(10560.0);
    }
    std::size_t i = 1;
    while (heights[i] < altitude) {
        ++i;
    }
    return lifts[i - 1] +
           (lifts[i] - lifts[i - 1]) * (altitude - heights[i - 1]) / (heights[i] - heights[i - 1]);
}

double vapour_feet(double fahrenheit) {
    const double t = (fahrenheit - 32.0) * 5.0 / 9.0;
    return 6.1094 * std::exp(17.625 * t / (t + 243.04)) * 0.0145037738 / 0.4335;
}

double head_limit(const District& district, const WaterSource& source) {
    const Assumptions& a = district.assumptions;
    const double altitude = in_feet(district.elevation.at(source.place).value_or(a.altitude));
    const double warm = std::max(0.0, vapour_feet(a.water_temperature_f) - vapour_feet(60.0));
    return std::max(0.0, std::min(in_feet(a.most_suction_head), practical_lift(altitude) - warm));
}

struct Smoothness {
    double n, c;
};
Smoothness smoothness(PipeMaterial material) {
    switch (material) {
        case PipeMaterial::plastic:
            return {0.010, 150.0};
        case PipeMaterial::steel:
            return {0.012, 120.0};
        case PipeMaterial::cement_lined:
            return {0.013, 140.0};
        case PipeMaterial::old_iron:
            return {0.015, 100.0};
    }
    return {0.015, 100.0};
}

Suction suction_of(const WaterSource& source, const Assumptions& a) {
    const SuctionData& data = source.suction;
    const bool piped = source.kind != SourceKind::draft_site || data.pipe;
    Suction line;
    line.hose = {in_metres(data.hose.value_or(a.suction_hose)), in_metres(a.suction_hose_bore),
                 0.010, 150.0};
    line.pipe = line.hose;
    line.pipe.length = 0.0;
    if (piped) {
        const Smoothness smooth = smoothness(data.material.value_or(PipeMaterial::old_iron));
        const double bends = in_metres(a.elbow_90) * data.elbows_90.value_or(a.unknown_elbows_90) +
                             in_metres(a.elbow_45) * data.elbows_45.value_or(a.unknown_elbows_45);
        line.pipe = {in_metres(data.pipe.value_or(a.unknown_pipe)) + bends,
                     in_metres(data.pipe_diameter.value_or(a.unknown_pipe_bore)), smooth.n,
                     smooth.c};
    }
    const double narrow = std::max(1.0, 6.0 * 0.0254 / line.pipe.diameter);
    line.entrance_at_500 = in_metres(data.strainer_loss.value_or(
        piped ? a.pipe_strainer_loss * std::pow(narrow, 4.0) : a.hose_strainer_loss));
    return line;
}

double share_at(double lift_ft) {
    if (lift_ft <= 10.0) {
        return 1.0;
    }
    return std::max(
        0.0, lift_ft <= 15.0 ? 1.0 - 0.06 * (lift_ft - 10.0) : 0.7 - 0.02 * (lift_ft - 15.0));
}

void draft(const District& district, const WaterSource& source, Giving& giving) {
    const Assumptions& a = district.assumptions;
    const double lift = in_feet(source.suction.lift.value_or(a.most_lift));
    const double left = head_limit(district, source) - lift;
    const bool measured = proved(district, source) && source.rate;
    if (lift > in_feet(a.most_lift) || (left <= 0.0 && !(measured && !source.suction.lift))) {
        return;
    }
    const Flow standard = source.kind == SourceKind::draft_site ? a.draft_site_rate
                          : source.kind == SourceKind::cistern  ? a.cistern_rate
                                                                : a.dry_hydrant_rate;
    const auto air = [](double z) { return 33.96 * std::pow(1.0 - 6.8756e-6 * z, 5.2559); };
    const double altitude = in_feet(district.elevation.at(source.place).value_or(a.altitude));
    giving.pump_share = share_at(lift + std::max(0.0, air(2000.0) - air(altitude)));
    giving.into_any_pump = in_gpm(source.rate.value_or(standard));
    if (!measured) {
        giving.into_any_pump = std::min(
            giving.into_any_pump,
            drawn(suction_of(source, a), left * metres_per_foot, district.suction_friction));
    }
}

// --- volume -------------------------------------------------------------------------------------

double gallons_of(const UsableWater& usable) {
    return usable.is_unlimited() ? unlimited : in_gallons(*usable.volume());
}

double behind_hydrant(const District& district, const WaterSource& source) {
    double least = -1.0;
    for (const WaterSource& other : district.sources) {
        const bool same = !source.system.empty() && other.system == source.system;
        const bool itself = other.id == source.id;
        if ((same || itself) && other.kind == SourceKind::hydrant && other.usable) {
            const double gallons = gallons_of(*other.usable);
            least = least < 0.0 ? gallons : std::min(least, gallons);
        }
    }
    return least < 0.0 ? in_gallons(district.assumptions.hydrant_system_storage) : least;
}

double in_still_water(const WaterSource& source, const Assumptions& a) {
    double gallons = source.usable ? gallons_of(*source.usable) : -1.0;
    if (source.still.over_intake) {
        const double ice =
            source.frost_proof && source.still.ice
                ? in_feet(*source.still.ice)
                : std::max(in_feet(a.surface_loss), in_feet(source.still.ice.value_or(feet(0))));
        const double depth = in_feet(*source.still.over_intake) - in_feet(a.strainer_depth) - ice;
        if (depth <= 0.0) {
            return 0.0;
        }
        if (source.still.area) {
            const bool whole = source.kind == SourceKind::cistern || source.still.sounded;
            const double held = in_acres(*source.still.area) * 43560.0 * depth * 7.480519 *
                                (whole ? 1.0 : a.unsounded_share);
            gallons = gallons < 0.0 ? held : std::min(gallons, held);
        }
    }
    return std::max(0.0, gallons);
}

}  // namespace

Giving giving(const District& district, const WaterSource& source) {
    const Assumptions& a = district.assumptions;
    Giving found;
    if (source.kind == SourceKind::hydrant) {
        found.into_any_pump = hydrant_gives(source, a);
        found.gallons = behind_hydrant(district, source);
    } else {
        draft(district, source, found);
        found.gallons = in_still_water(source, a);
    }
    if (source.reach == Reach::portable_pump) {
        found.into_any_pump = std::min(found.into_any_pump, in_gpm(a.portable_pump_rate));
    }
    for (const WaterSource& other : district.sources) {
        const bool same = !source.system.empty() && other.system == source.system;
        if ((same || other.id == source.id) && other.system_rate) {
            found.into_any_pump = std::min(found.into_any_pump, in_gpm(*other.system_rate));
        }
    }
    return found;
}

}  // namespace farwater::slow
