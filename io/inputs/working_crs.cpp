#include "io/inputs/working_crs.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <ogr_spatialref.h>

#include "io/error.h"
#include "io/records/dataset.h"

namespace farwater::io {
namespace {

// Lengths in another CRS than the default's are allowed to be off by more, when asked for.
constexpr double most_error_by_default = 1.0 / 1000.0;
constexpr double most_error_when_given = 1.0 / 100.0;
constexpr double most_skew = 1e-5;
constexpr double step = 1e-3;  // in the geographic CRS's unit, about 100 m in degrees

// The ellipsoid's metres per radian along the parallel and along the meridian.
struct Radii {
    double east, north;
};

Radii radii_at(const OGRSpatialReference& crs, double latitude) {
    const double a = crs.GetSemiMajor();
    const double flattening = crs.GetInvFlattening() == 0.0 ? 0.0 : 1.0 / crs.GetInvFlattening();
    const double e2 = flattening * (2.0 - flattening);
    const double w = std::sqrt(1.0 - e2 * std::sin(latitude) * std::sin(latitude));
    return {a / w * std::cos(latitude), a * (1.0 - e2) / (w * w * w)};
}

std::optional<Point> mapped(OGRCoordinateTransformation& way, Point p) {
    if (way.Transform(1, &p.x, &p.y) == 0 || !std::isfinite(p.x) || !std::isfinite(p.y)) {
        return std::nullopt;
    }
    return p;
}

// How a step of one metre on the ground looks on the map, towards `direction`.
std::optional<Point> drawn_step(OGRCoordinateTransformation& way, Point at, Point direction,
                                double ground_metres, double unit) {
    const auto ahead = mapped(way, {at.x + direction.x, at.y + direction.y});
    const auto behind = mapped(way, {at.x - direction.x, at.y - direction.y});
    if (!ahead || !behind) {
        return std::nullopt;
    }
    const double scale = unit / (2.0 * ground_metres);
    return Point{(ahead->x - behind->x) * scale, (ahead->y - behind->y) * scale};
}

std::optional<Fidelity> fidelity_at(const OGRSpatialReference& crs, const OGRSpatialReference& base,
                                    OGRCoordinateTransformation& way, Point at) {
    const double radian = base.GetAngularUnits();
    const Radii radii = radii_at(crs, at.y * radian);
    const double unit = crs.GetLinearUnits();
    const auto east = drawn_step(way, at, {step, 0.0}, step * radian * radii.east, unit);
    const auto north = drawn_step(way, at, {0.0, step}, step * radian * radii.north, unit);
    if (!east || !north) {
        return std::nullopt;
    }
    const double k = std::hypot(east->x, east->y);
    const double h = std::hypot(north->x, north->y);
    const double cosine = (east->x * north->x + east->y * north->y) / (k * h);
    return Fidelity{std::max(std::abs(k - 1.0), std::abs(h - 1.0)),
                    std::max(std::abs(k - h) / h, std::abs(cosine))};
}

struct Verdict {
    std::string why_not;  // lengths cannot be taken from this CRS; empty = they can
    double worst_scale_error = 0.0;
};

Verdict judged(const Crs& crs, const Crs& parcels, const CrsExtent& extent, double most_error) {
    if (crs->IsProjected() == 0) {
        return {"it is not projected: degrees are no distance"};
    }
    if (code_of(crs) == "EPSG:3857") {
        return {"web Mercator stretches lengths"};
    }
    const std::optional<Fidelity> fidelity = fidelity_of(crs, parcels, extent);
    if (!fidelity) {
        return {"the district has no place in it"};
    }
    if (fidelity->worst_skew > most_skew) {
        return {"it is not conformal: a length depends on its direction"};
    }
    const double error = fidelity->worst_scale_error;
    if (error > most_error) {
        return {fmt::format("its lengths are off by up to {:.1f} per thousand in the district",
                            error * 1000.0)};
    }
    return {{}, error};
}

using Stray = std::function<std::string()>;

[[noreturn]] void fail_extent(const Crs& parcels, const CrsExtent& extent, const Stray& stray) {
    throw InputError(
        fmt::format("parcels: their coordinates ({}) are no place in {}; correct the "
                    "layer's crs in [parcels]{}.",
                    printed(extent), name_of(parcels), stray()));
}

// The centre in degrees of WGS 84.
Point centre_of(const Crs& parcels, const CrsExtent& extent, const Stray& stray) {
    const CrsTransformation way = transformation(parcels, crs_from_text("EPSG:4326"));
    const auto centre =
        way ? mapped(*way, {(extent.west + extent.east) / 2, (extent.south + extent.north) / 2})
            : std::nullopt;
    const bool degrees = parcels->IsGeographic() != 0;
    const bool wild = degrees && (extent.north > 90.0 || extent.south < -90.0 ||
                                  extent.east > 360.0 || extent.west < -180.0);
    if (!centre || wild || std::abs(centre->y) > 84.0) {
        fail_extent(parcels, extent, stray);
    }
    return *centre;
}

Crs utm_at(Point centre) {
    const double from_west = std::fmod(centre.x + 540.0, 360.0);
    const int zone = std::min(60, static_cast<int>(from_west / 6.0) + 1);
    return crs_from_text(fmt::format("EPSG:{}", (centre.y < 0.0 ? 32700 : 32600) + zone));
}

WorkingCrs given_crs(const std::string& given, const Crs& parcels, const CrsExtent& extent,
                     const Crs& advice, const Stray& stray) {
    const Crs crs = crs_from_text(given);
    const Verdict verdict = crs ? judged(crs, parcels, extent, most_error_when_given)
                                : Verdict{"PROJ knows no such coordinate system"};
    if (!verdict.why_not.empty()) {
        throw SettingsError(
            fmt::format("crs = \"{}\" cannot be the working CRS: {}; leave crs out, or name a "
                        "projected one such as {}{}",
                        given, verdict.why_not, code_of(advice), crs ? stray() : ""));
    }
    return described_crs(crs, "set by crs in the district file", verdict.worst_scale_error);
}

}  // namespace

std::optional<Fidelity> fidelity_of(const Crs& crs, const Crs& extent_crs,
                                    const CrsExtent& extent) {
    const GdalMessages messages;
    const std::unique_ptr<OGRSpatialReference> base(crs->CloneGeogCS());
    if (!base) {
        return std::nullopt;
    }
    const Crs geographic = crs_from_layer(base.get());
    const CrsTransformation into_degrees = transformation(extent_crs, geographic);
    const CrsTransformation into_plane = transformation(geographic, crs);
    if (!into_degrees || !into_plane) {
        return std::nullopt;
    }
    Fidelity worst;
    for (const Point p : spread_over(extent)) {
        const auto place = mapped(*into_degrees, p);
        const auto here = place ? fidelity_at(*crs, *base, *into_plane, *place) : std::nullopt;
        if (!here) {
            return std::nullopt;
        }
        worst = {std::max(worst.worst_scale_error, here->worst_scale_error),
                 std::max(worst.worst_skew, here->worst_skew)};
    }
    return worst;
}

WorkingCrs choose_working_crs(const std::string& given, const Crs& parcels, const CrsExtent& extent,
                              const Stray& stray) {
    const GdalMessages messages;
    const Point centre = centre_of(parcels, extent, stray);
    if (!given.empty()) {
        return given_crs(given, parcels, extent, utm_at(centre), stray);
    }
    const Verdict own = judged(parcels, parcels, extent, most_error_by_default);
    if (own.why_not.empty()) {
        return described_crs(parcels, "the parcels' own", own.worst_scale_error);
    }
    const Crs utm = utm_at(centre);
    const std::optional<Fidelity> of_utm = fidelity_of(utm, parcels, extent);
    if (!of_utm || of_utm->worst_scale_error > most_error_when_given) {
        throw InputError(fmt::format(
            "parcels: they extend over {} of {}, too far for one plane; look for stray parcels, or "
            "take the district's own with where{}.",
            printed(extent), name_of(parcels), stray()));
    }
    return described_crs(
        utm,
        fmt::format("the UTM zone of the parcels' centre, since the parcels' own {} is unfit: {}",
                    name_of(parcels), own.why_not),
        of_utm->worst_scale_error);
}

}  // namespace farwater::io
