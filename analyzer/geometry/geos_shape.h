// GEOS in C++ hands, for the .cpp files of this room. Its types stay opaque here.
#pragma once

#include <memory>
#include <vector>

#include "analyzer/geometry/polygon.h"

struct GEOSContextHandle_HS;
struct GEOSGeom_t;

namespace farwater {

// Everything of GEOS hangs on a context. One per call: that costs less than a microsecond and keeps
// the functions free of shared state.
class Geos {
public:
    Geos();
    ~Geos();
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;
    GEOSContextHandle_HS* operator*() const { return handle_; }

    struct Destroy {
        GEOSContextHandle_HS* handle;
        void operator()(GEOSGeom_t* geometry) const;
    };
    using Owned = std::unique_ptr<GEOSGeom_t, Destroy>;
    Owned owned(GEOSGeom_t* geometry) const { return Owned(geometry, Destroy{handle_}); }

private:
    GEOSContextHandle_HS* handle_;
};

// What GEOS can build of a shape, owned by the caller; rings of fewer than four vertices and open
// ones are left out. Null where a single polygon has no ring for its shell, or GEOS refuses it.
struct BuiltShape {
    GEOSGeom_t* geometry = nullptr;
    bool complete = true;  // nothing was left out
};
BuiltShape shape_in_geos(const Geos& geos, const MultiPolygon& shape);

// Lines of two or more vertices each, owned by the caller. Null where GEOS refuses them.
GEOSGeom_t* lines_in_geos(const Geos& geos, const std::vector<Polyline>& lines);

// The polygons of any geometry; what has no area is left out.
MultiPolygon polygons_from_geos(const Geos& geos, const GEOSGeom_t* geometry);

}  // namespace farwater
