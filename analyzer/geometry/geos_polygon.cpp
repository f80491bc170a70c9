// What needs GEOS: validity, repair and a point on the surface.
#include <cmath>

#include <geos_c.h>

#include "analyzer/geometry/geos_shape.h"
#include "analyzer/geometry/polygon.h"

namespace farwater {
namespace {

Polyline ring_from_geos(const Geos& geos, const GEOSGeometry* ring) {
    const GEOSCoordSequence* vertices = GEOSGeom_getCoordSeq_r(*geos, ring);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(*geos, vertices, &count);
    Polyline line(count);
    if (count > 0) {
        GEOSCoordSeq_copyToBuffer_r(*geos, vertices, &line.front().x, 0, 0);
    }
    return line;
}

Polygon polygon_from_geos(const Geos& geos, const GEOSGeometry* polygon) {
    Polygon result{ring_from_geos(geos, GEOSGetExteriorRing_r(*geos, polygon)), {}};
    const int holes = GEOSGetNumInteriorRings_r(*geos, polygon);
    for (int i = 0; i < holes; ++i) {
        result.holes.push_back(ring_from_geos(geos, GEOSGetInteriorRingN_r(*geos, polygon, i)));
    }
    return result;
}

void collect_polygons(const Geos& geos, const GEOSGeometry* geometry, MultiPolygon& polygons) {
    if (GEOSGeomTypeId_r(*geos, geometry) == GEOS_POLYGON) {
        if (GEOSisEmpty_r(*geos, geometry) == 0) {
            polygons.push_back(polygon_from_geos(geos, geometry));
        }
        return;
    }
    if (GEOSGeomTypeId_r(*geos, geometry) < GEOS_MULTIPOINT) {
        return;
    }
    const int parts = GEOSGetNumGeometries_r(*geos, geometry);
    for (int i = 0; i < parts; ++i) {
        collect_polygons(geos, GEOSGetGeometryN_r(*geos, geometry, i), polygons);
    }
}

GEOSGeometry* made_valid(const Geos& geos, const GEOSGeometry* geometry) {
    GEOSMakeValidParams* how = GEOSMakeValidParams_create_r(*geos);
    // By structure: parts that overlap are united. By linework their overlap would be cut out.
    GEOSMakeValidParams_setMethod_r(*geos, how, GEOS_MAKE_VALID_STRUCTURE);
    GEOSMakeValidParams_setKeepCollapsed_r(*geos, how, 0);
    GEOSGeometry* valid = GEOSMakeValidWithParams_r(*geos, geometry, how);
    GEOSMakeValidParams_destroy_r(*geos, how);
    return valid;
}

bool all_finite(const MultiPolygon& shape) {
    const auto finite = [](const Polyline& ring) {
        for (const Point p : ring) {
            if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
                return false;
            }
        }
        return true;
    };
    for (const Polygon& polygon : shape) {
        if (!finite(polygon.shell)) {
            return false;
        }
        for (const Polyline& hole : polygon.holes) {
            if (!finite(hole)) {
                return false;
            }
        }
    }
    return true;
}

}  // namespace

MultiPolygon polygons_from_geos(const Geos& geos, const GEOSGeom_t* geometry) {
    MultiPolygon polygons;
    collect_polygons(geos, geometry, polygons);
    return polygons;
}

bool is_valid(const MultiPolygon& shape) {
    if (shape.size() == 1 && shape.front().holes.empty() && certainly_simple(shape.front().shell)) {
        return true;
    }
    const Geos geos;
    const BuiltShape built = shape_in_geos(geos, shape);
    const auto geometry = geos.owned(built.geometry);
    return built.complete && geometry && GEOSisValid_r(*geos, geometry.get()) == 1;
}

std::optional<MultiPolygon> repaired(const MultiPolygon& shape) {
    if (!all_finite(shape)) {
        return std::nullopt;
    }
    const Geos geos;
    const auto geometry = geos.owned(shape_in_geos(geos, shape).geometry);
    if (!geometry) {
        return std::nullopt;
    }
    const auto valid = geos.owned(made_valid(geos, geometry.get()));
    MultiPolygon polygons;
    if (valid) {
        collect_polygons(geos, valid.get(), polygons);
    }
    if (polygons.empty() || !(area_m2(polygons) > 0.0)) {
        return std::nullopt;
    }
    return polygons;
}

std::optional<Point> point_on_surface(const MultiPolygon& shape) {
    const Geos geos;
    const auto geometry = geos.owned(shape_in_geos(geos, shape).geometry);
    const auto point = geos.owned(geometry ? GEOSPointOnSurface_r(*geos, geometry.get()) : nullptr);
    Point place;
    if (!point || GEOSisEmpty_r(*geos, point.get()) != 0 ||
        GEOSGeomGetX_r(*geos, point.get(), &place.x) != 1 ||
        GEOSGeomGetY_r(*geos, point.get(), &place.y) != 1) {
        return std::nullopt;
    }
    return place;
}

}  // namespace farwater
