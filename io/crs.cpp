#include "io/crs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <cpl_conv.h>
#include <fmt/format.h>
#include <ogr_spatialref.h>

#include "io/error.h"
#include "io/records/dataset.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

// A cleaned copy: x east and y north, no heights. Null when there is nothing left to work with.
Crs cleaned(const OGRSpatialReference& reference) {
    const auto crs = std::make_shared<OGRSpatialReference>(reference);
    crs->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    if (crs->IsCompound() != 0) {
        crs->StripVertical();
    }
    const char* name = crs->GetName();
    const bool undefined = name == nullptr || lower_case(name).starts_with("undefined");
    const bool on_earth = crs->IsGeographic() != 0 || crs->IsProjected() != 0;
    return undefined || !on_earth ? nullptr : crs;
}

std::string code_in(const OGRSpatialReference& crs) {
    const char* authority = crs.GetAuthorityName(nullptr);
    const char* code = crs.GetAuthorityCode(nullptr);
    return authority == nullptr || code == nullptr ? "" : fmt::format("{}:{}", authority, code);
}

std::string wkt_in(const OGRSpatialReference& crs) {
    char* text = nullptr;
    const std::array<const char*, 2> options{"FORMAT=WKT2_2019", nullptr};
    crs.exportToWkt(&text, options.data());
    std::string wkt = text == nullptr ? "" : text;
    CPLFree(text);
    return wkt;
}

// Longitudes and latitudes of the ground where a CRS is at home: its area of use, else a patch
// around its origin.
CrsExtent home_of(const OGRSpatialReference& crs) {
    CrsExtent home;
    const char* name = nullptr;
    if (crs.GetAreaOfUse(&home.west, &home.south, &home.east, &home.north, &name) &&
        home.west >= -180.0 && home.west < home.east) {
        return home;
    }
    const double longitude = crs.GetNormProjParm(SRS_PP_CENTRAL_MERIDIAN, 0.0);
    const double latitude = crs.GetNormProjParm(SRS_PP_LATITUDE_OF_ORIGIN, 0.0);
    return {longitude - 1.0, latitude, longitude + 1.0, latitude + 2.0};
}

Crs geographic_of(const Crs& crs) {
    const std::unique_ptr<OGRSpatialReference> base(crs->CloneGeogCS());
    return base ? cleaned(*base) : nullptr;
}

std::optional<Point> transformed(const CrsTransformation& way, Point p) {
    if (!way || way->Transform(1, &p.x, &p.y) == 0 || !std::isfinite(p.x) || !std::isfinite(p.y)) {
        return std::nullopt;
    }
    return p;
}

// Metres on the ground of one unit of its coordinates, roughly for angles.
double unit_in_metres(const OGRSpatialReference& crs) {
    return crs.IsProjected() != 0 ? crs.GetLinearUnits()
                                  : crs.GetAngularUnits() * crs.GetSemiMajor();
}

// Do both give the same numbers to within a millimetre, all over the home of one of them?
bool same_numbers(const Crs& a, const Crs& b) {
    const double unit = unit_in_metres(*a);
    if (a->IsProjected() != b->IsProjected() || std::abs(unit - unit_in_metres(*b)) > 1e-6 * unit) {
        return false;
    }
    const CrsTransformation into_a = transformation(geographic_of(a), a);
    const CrsTransformation into_b = transformation(a, b);
    const std::vector<Point> places = spread_over(home_of(*a));
    return std::all_of(places.begin(), places.end(), [&](Point place) {
        const std::optional<Point> there = transformed(into_a, place);
        const std::optional<Point> here = there ? transformed(into_b, *there) : std::nullopt;
        return here && std::hypot(here->x - there->x, here->y - there->y) * unit < 1e-3;
    });
}

// The same CRS under its authority's code, where one is known: data often carry it without.
Crs with_code(const Crs& crs) {
    if (!crs || !code_in(*crs).empty()) {
        return crs;
    }
    int count = 0;
    OGRSpatialReferenceH* matches = crs->FindMatches(nullptr, &count, nullptr);
    Crs found = crs;
    for (int i = 0; i < count && found == crs; ++i) {
        const Crs match = cleaned(*OGRSpatialReference::FromHandle(matches[i]));
        if (match && !code_in(*match).empty() && same_numbers(crs, match)) {
            found = match;
        }
    }
    OSRFreeSRSArray(matches);
    return found;
}

}  // namespace

std::string printed(const CrsExtent& extent) {
    return fmt::format("x {:.10g} to {:.10g}, y {:.10g} to {:.10g}", extent.west, extent.east,
                       extent.south, extent.north);
}

std::vector<Point> spread_over(const CrsExtent& extent) {
    constexpr int steps = 4;
    std::vector<Point> points;
    for (int i = 0; i <= steps; ++i) {
        for (int j = 0; j <= steps; ++j) {
            points.push_back({extent.west + (extent.east - extent.west) * i / steps,
                              extent.south + (extent.north - extent.south) * j / steps});
        }
    }
    return points;
}

Crs crs_from_text(const std::string& text) {
    const GdalMessages messages;
    OGRSpatialReference reference;
    if (is_blank(std::string_view(text)) ||
        reference.SetFromUserInput(text.c_str()) != OGRERR_NONE) {
        return nullptr;
    }
    return cleaned(reference);
}

Crs crs_from_layer(const OGRSpatialReference* of_layer) {
    const GdalMessages messages;
    return of_layer == nullptr ? nullptr : with_code(cleaned(*of_layer));
}

Crs crs_of(const WorkingCrs& working) {
    return crs_from_text(working.code.empty() ? working.wkt : working.code);
}

std::string wkt_of(const Crs& crs) { return crs ? wkt_in(*crs) : std::string(); }

std::string code_of(const Crs& crs) { return crs ? code_in(*crs) : std::string(); }

bool same_crs(const Crs& a, const Crs& b) {
    if (!a || !b) {
        return false;
    }
    const GdalMessages messages;
    const std::array<const char*, 2> options{"CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS",
                                             nullptr};
    return a->IsSame(b.get(), options.data()) != 0 || same_numbers(a, b);
}

std::string name_of(const Crs& crs) {
    if (!crs) {
        return "none";
    }
    const std::string code = code_in(*crs);
    const char* name = crs->GetName();
    return code.empty() ? std::string(name) : fmt::format("{} ({})", code, name);
}

CrsTransformation transformation(const Crs& from, const Crs& to) {
    if (!from || !to) {
        return nullptr;
    }
    const GdalMessages messages;
    return CrsTransformation(OGRCreateCoordinateTransformation(from.get(), to.get()));
}

WorkingCrs described_crs(const Crs& crs, std::string chosen, double worst_scale_error) {
    const GdalMessages messages;
    return {code_in(*crs),     crs->GetName(),        wkt_in(*crs),
            std::move(chosen), crs->GetLinearUnits(), worst_scale_error};
}

ToPlane::ToPlane(const Crs& from, const WorkingCrs& working)
    : metres_per_unit_(working.metres_per_unit) {
    const Crs to = crs_of(working);
    if (same_crs(from, to)) {
        return;
    }
    transformation_ = transformation(from, to);
    if (!transformation_) {
        throw InputError(
            fmt::format("there is no way from {} to {}; name another crs in the district file",
                        name_of(from), name_of(to)));
    }
}

std::optional<Point> ToPlane::operator()(double x, double y) const {
    Polyline one{{x, y}};
    return transform(one) ? std::optional(one.front()) : std::nullopt;
}

bool ToPlane::transform(Polyline& line) const {
    if (transformation_) {
        const GdalMessages messages;
        std::vector<double> x(line.size());
        std::vector<double> y(line.size());
        for (std::size_t i = 0; i < line.size(); ++i) {
            x[i] = line[i].x;
            y[i] = line[i].y;
        }
        transformation_->Transform(static_cast<int>(line.size()), x.data(), y.data());
        for (std::size_t i = 0; i < line.size(); ++i) {
            line[i] = {x[i], y[i]};
        }
    }
    for (Point& p : line) {
        p = {p.x * metres_per_unit_, p.y * metres_per_unit_};
    }
    return std::all_of(line.begin(), line.end(),
                       [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

ToDegrees::ToDegrees(const WorkingCrs& working)
    : transformation_(transformation(crs_of(working), crs_from_text("EPSG:4326"))),
      metres_per_unit_(working.metres_per_unit) {}

std::optional<Degrees> ToDegrees::operator()(Point metres) const {
    if (!transformation_) {
        return std::nullopt;
    }
    const GdalMessages messages;
    Point p{metres.x / metres_per_unit_, metres.y / metres_per_unit_};
    if (transformation_->Transform(1, &p.x, &p.y) == FALSE) {
        return std::nullopt;
    }
    return Degrees{.latitude = p.y, .longitude = p.x};
}

}  // namespace farwater::io
