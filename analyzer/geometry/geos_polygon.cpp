// What needs GEOS: validity, repair and a point on the surface.
#include <cmath>
#include <memory>

#include <geos_c.h>

#include "analyzer/geometry/polygon.h"

namespace farwater {
namespace {

// Everything of GEOS hangs on a context. One per call: that costs less than a microsecond and keeps
// the functions free of shared state.
class Geos {
public:
    Geos() : handle_(GEOS_init_r()) {}
    ~Geos() { GEOS_finish_r(handle_); }
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;
    GEOSContextHandle_t operator*() const { return handle_; }

    auto owned(GEOSGeometry* geometry) const {
        const auto destroy = [handle = handle_](GEOSGeometry* g) { GEOSGeom_destroy_r(handle, g); };
        return std::unique_ptr<GEOSGeometry, decltype(destroy)>(geometry, destroy);
    }

private:
    GEOSContextHandle_t handle_;
};

static_assert(sizeof(Point) == 2 * sizeof(double),
              "rings are handed to GEOS as they lie in memory");

// Null where the ring is no ring: fewer than four vertices, or open.
GEOSGeometry* ring_in_geos(const Geos& geos, const Polyline& ring) {
    if (ring.size() < 4) {
        return nullptr;
    }
    GEOSCoordSequence* vertices = GEOSCoordSeq_copyFromBuffer_r(
        *geos, &ring.front().x, static_cast<unsigned>(ring.size()), 0, 0);
    return vertices == nullptr ? nullptr : GEOSGeom_createLinearRing_r(*geos, vertices);
}

struct BuiltPolygon {
    GEOSGeometry* geometry = nullptr;  // null: the shell is no ring
    bool complete = true;              // no hole was left out
};

BuiltPolygon polygon_in_geos(const Geos& geos, const Polygon& polygon) {
    GEOSGeometry* shell = ring_in_geos(geos, polygon.shell);
    if (shell == nullptr) {
        return {nullptr, false};
    }
    std::vector<GEOSGeometry*> holes;
    for (const Polyline& hole : polygon.holes) {
        if (GEOSGeometry* ring = ring_in_geos(geos, hole)) {
            holes.push_back(ring);
        }
    }
    const bool complete = holes.size() == polygon.holes.size();
    return {
        GEOSGeom_createPolygon_r(*geos, shell, holes.data(), static_cast<unsigned>(holes.size())),
        complete};
}

// What can be built of the shape; `complete` false when rings had to be left out.
BuiltPolygon shape_in_geos(const Geos& geos, const MultiPolygon& shape) {
    std::vector<GEOSGeometry*> parts;
    bool complete = !shape.empty();
    for (const Polygon& polygon : shape) {
        const BuiltPolygon part = polygon_in_geos(geos, polygon);
        complete = complete && part.complete && part.geometry != nullptr;
        if (part.geometry != nullptr) {
            parts.push_back(part.geometry);
        }
    }
    if (parts.size() == 1) {
        return {parts.front(), complete};
    }
    return {GEOSGeom_createCollection_r(*geos, GEOS_MULTIPOLYGON, parts.data(),
                                        static_cast<unsigned>(parts.size())),
            complete};
}

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

// The polygons of any geometry; what has no area is left out.
void collect_polygons(const Geos& geos, const GEOSGeometry* geometry, MultiPolygon& polygons) {
    if (GEOSGeomTypeId_r(*geos, geometry) == GEOS_POLYGON) {
        if (GEOSisEmpty_r(*geos, geometry) == 0) {
            polygons.push_back(polygon_from_geos(geos, geometry));
        }
        return;
    }
    const int parts = GEOSGetNumGeometries_r(*geos, geometry);
    for (int i = 0; parts > 1 && i < parts; ++i) {
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

bool is_valid(const MultiPolygon& shape) {
    if (shape.size() == 1 && shape.front().holes.empty() && certainly_simple(shape.front().shell)) {
        return true;
    }
    const Geos geos;
    const BuiltPolygon built = shape_in_geos(geos, shape);
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
