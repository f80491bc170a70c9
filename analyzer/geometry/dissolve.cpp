#include "analyzer/geometry/dissolve.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

#include <geos_c.h>

#include "analyzer/geometry/geos_shape.h"
#include "analyzer/geometry/shared_borders.h"

namespace farwater {
namespace {

// Mended: shapes that are not valid are repaired first.
Geos::Owned all_in_geos(const Geos& geos, const Footprints& shapes,
                        std::span<const std::uint32_t> which, bool mended) {
    std::vector<GEOSGeometry*> parts;
    for (const std::uint32_t i : which) {
        const MultiPolygon shape = shapes.shape(i);
        const auto whole = mended && !is_valid(shape) ? repaired(shape) : std::optional(shape);
        GEOSGeometry* part =
            whole && !whole->empty() ? shape_in_geos(geos, *whole).geometry : nullptr;
        if (part != nullptr) {
            parts.push_back(part);
        }
    }
    return geos.owned(GEOSGeom_createCollection_r(*geos, GEOS_GEOMETRYCOLLECTION, parts.data(),
                                                  static_cast<unsigned>(parts.size())));
}

// Null where neighbours do not meet corner by corner, or ground lies under two shapes.
Geos::Owned without_borders(const Geos& geos, const Footprints& shapes,
                            std::span<const std::uint32_t> which) {
    const auto parts = without_shared_borders(shapes, which, dissolve_grid_m);
    auto whole = geos.owned(parts ? shape_in_geos(geos, *parts).geometry : nullptr);
    const bool right = whole && GEOSisValid_r(*geos, whole.get()) == 1;
    return right ? std::move(whole) : geos.owned(nullptr);
}

// By overlay, which is right for whatever is valid; null where GEOS finds none.
Geos::Owned by_overlay(const Geos& geos, const GEOSGeometry* all) {
    const auto whole = geos.owned(GEOSUnaryUnion_r(*geos, all));
    return geos.owned(whole ? GEOSGeom_setPrecision_r(*geos, whole.get(), dissolve_grid_m, 0)
                            : nullptr);
}

// Of shapes that hang together.
MultiPolygon united(const Footprints& shapes, std::span<const std::uint32_t> which) {
    const Geos geos;
    auto whole = without_borders(geos, shapes, which);
    if (!whole) {
        const auto all = all_in_geos(geos, shapes, which, false);
        whole = all ? by_overlay(geos, all.get()) : geos.owned(nullptr);
    }
    if (!whole) {
        const auto mended = all_in_geos(geos, shapes, which, true);
        whole = mended ? by_overlay(geos, mended.get()) : geos.owned(nullptr);
    }
    const bool normal = whole && GEOSNormalize_r(*geos, whole.get()) == 0;
    return normal ? polygons_from_geos(geos, whole.get()) : MultiPolygon{};
}

Point corner(const Polygon& polygon) { return *std::ranges::min_element(polygon.shell); }

// By most of its vertices, for some may lie on the shell.
bool lies_in(const Polyline& shell, const Polyline& ring) {
    const MultiPolygon ground{{shell, {}}};
    const auto inside = std::ranges::count_if(ring, [&](Point p) { return contains(ground, p); });
    return 2 * static_cast<std::size_t>(inside) > ring.size();
}

}  // namespace

MultiPolygon dissolved(const Footprints& shapes, std::span<const std::uint32_t> which) {
    std::vector<std::vector<std::uint32_t>> touching;
    const std::vector<std::uint32_t> group = groups_within(shapes, which, metres(dissolve_grid_m));
    for (std::size_t i = 0; i < which.size(); ++i) {
        touching.resize(std::max<std::size_t>(touching.size(), group[i] + 1));
        touching[group[i]].push_back(which[i]);
    }
    MultiPolygon result;
    for (const std::vector<std::uint32_t>& members : touching) {
        std::ranges::move(united(shapes, members), std::back_inserter(result));
    }
    std::ranges::sort(result, {}, corner);
    return result;
}

MultiPolygon shape_of_rings(std::span<const Polyline> rings) {
    MultiPolygon shape;
    for (const Polyline& ring : rings) {
        if (ring.size() < 4) {
            continue;
        }
        if (!shape.empty() && lies_in(shape.back().shell, ring)) {
            shape.back().holes.push_back(ring);
        } else {
            shape.push_back({ring, {}});
        }
    }
    return shape;
}

}  // namespace farwater
