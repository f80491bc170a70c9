#include "analyzer/geometry/geos_shape.h"

#include <vector>

#include <geos_c.h>

namespace farwater {
namespace {

static_assert(sizeof(Point) == 2 * sizeof(double),
              "rings are handed to GEOS as they lie in memory");

GEOSCoordSequence* vertices_in_geos(const Geos& geos, const Polyline& line) {
    return GEOSCoordSeq_copyFromBuffer_r(*geos, &line.front().x, static_cast<unsigned>(line.size()),
                                         0, 0);
}

// Null where the ring is no ring: fewer than four vertices, or open.
GEOSGeometry* ring_in_geos(const Geos& geos, const Polyline& ring) {
    if (ring.size() < 4) {
        return nullptr;
    }
    GEOSCoordSequence* vertices = vertices_in_geos(geos, ring);
    return vertices == nullptr ? nullptr : GEOSGeom_createLinearRing_r(*geos, vertices);
}

BuiltShape polygon_in_geos(const Geos& geos, const Polygon& polygon) {
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

}  // namespace

Geos::Geos() : handle_(GEOS_init_r()) {}
Geos::~Geos() { GEOS_finish_r(handle_); }
void Geos::Destroy::operator()(GEOSGeom_t* geometry) const { GEOSGeom_destroy_r(handle, geometry); }

BuiltShape shape_in_geos(const Geos& geos, const MultiPolygon& shape) {
    std::vector<GEOSGeometry*> parts;
    bool complete = !shape.empty();
    for (const Polygon& polygon : shape) {
        const BuiltShape part = polygon_in_geos(geos, polygon);
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

GEOSGeom_t* lines_in_geos(const Geos& geos, const std::vector<Polyline>& lines) {
    std::vector<GEOSGeometry*> parts;
    for (const Polyline& line : lines) {
        GEOSCoordSequence* vertices = vertices_in_geos(geos, line);
        if (GEOSGeometry* part =
                vertices == nullptr ? nullptr : GEOSGeom_createLineString_r(*geos, vertices)) {
            parts.push_back(part);
        }
    }
    return GEOSGeom_createCollection_r(*geos, GEOS_MULTILINESTRING, parts.data(),
                                       static_cast<unsigned>(parts.size()));
}

}  // namespace farwater
