// Which CRS a run works in, and how true its lengths are.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "io/crs.h"

namespace farwater::io {

// How a CRS draws lengths over a district.
struct Fidelity {
    double worst_scale_error = 0.0;  // largest |scale - 1|, in any direction
    double worst_skew =
        0.0;  // 0 = conformal: scale is the same in every direction, right angles stay
};

// Measured on the ellipsoid at 25 points of the extent by small steps east and north; none when
// a point has no place in the CRS. Precondition: projected.
std::optional<Fidelity> fidelity_of(const Crs& crs, const Crs& extent_crs, const CrsExtent& extent);

// The rule of the working CRS: the district file's own text where given (throws SettingsError with
// the reason when it is not projected, not conformal, web Mercator or more than 1/100 off scale);
// else the parcels' CRS if it is projected, conformal, not web Mercator and within 1/1000 of true
// scale over the extent; else the UTM zone of the extent's centre. Throws InputError when the
// extent is no place on earth. `stray` is asked before any refusal: what it says stands in it, such
// as which record makes the extent so large. Precondition: `parcels` is not null.
WorkingCrs choose_working_crs(
    const std::string& given, const Crs& parcels, const CrsExtent& extent,
    const std::function<std::string()>& stray = [] { return std::string(); });

}  // namespace farwater::io
