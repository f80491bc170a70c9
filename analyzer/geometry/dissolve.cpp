#include "analyzer/geometry/dissolve.h"

#include <algorithm>
#include <iterator>
#include <numeric>
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

// Who belongs together, while more is learnt.
class Groups {
public:
    explicit Groups(std::size_t size) : parent_(size) {
        std::iota(parent_.begin(), parent_.end(), 0U);
    }
    std::uint32_t first_of(std::uint32_t member) {
        while (parent_[member] != member) {
            member = parent_[member] = parent_[parent_[member]];
        }
        return member;
    }
    void join(std::uint32_t a, std::uint32_t b) {
        const std::uint32_t of_a = first_of(a);
        const std::uint32_t of_b = first_of(b);
        parent_[std::max(of_a, of_b)] = std::min(of_a, of_b);
    }

private:
    std::vector<std::uint32_t> parent_;
};

// Boxes of the shapes, to be asked for those that touch a box.
class BoxTree {
public:
    BoxTree(const Footprints& shapes, std::span<const std::uint32_t> which)
        : places_(which.size()), tree_(GEOSSTRtree_create_r(*geos_, 10)) {
        std::iota(places_.begin(), places_.end(), 0U);
        for (std::uint32_t& place : places_) {
            const auto envelope = rectangle(shapes.box(which[place]));
            GEOSSTRtree_insert_r(*geos_, tree_, envelope.get(), &place);
        }
    }
    ~BoxTree() { GEOSSTRtree_destroy_r(*geos_, tree_); }
    BoxTree(const BoxTree&) = delete;
    BoxTree& operator=(const BoxTree&) = delete;

    void touching(const Box& box, std::vector<std::uint32_t>& found) const {
        found.clear();
        const auto envelope = rectangle(box);
        GEOSSTRtree_query_r(
            *geos_, tree_, envelope.get(),
            [](void* item, void* list) {
                static_cast<std::vector<std::uint32_t>*>(list)->push_back(
                    *static_cast<const std::uint32_t*>(item));
            },
            &found);
        std::ranges::sort(found);
    }

private:
    Geos::Owned rectangle(const Box& box) const {
        return geos_.owned(
            GEOSGeom_createRectangle_r(*geos_, box.low.x, box.low.y, box.high.x, box.high.y));
    }

    Geos geos_;
    std::vector<std::uint32_t> places_;  // the tree's items point here
    GEOSSTRtree* tree_;
};

// One shape that is held against many.
class PreparedShape {
public:
    explicit PreparedShape(const Geos& geos) : geos_(geos), shape_(geos.owned(nullptr)) {}
    ~PreparedShape() {
        if (prepared_ != nullptr) {
            GEOSPreparedGeom_destroy_r(*geos_, prepared_);
        }
    }
    PreparedShape(const PreparedShape&) = delete;
    PreparedShape& operator=(const PreparedShape&) = delete;

    bool empty() const { return prepared_ == nullptr; }
    void set(const MultiPolygon& shape) {
        shape_ = geos_.owned(shape_in_geos(geos_, shape).geometry);
        prepared_ = shape_ ? GEOSPrepare_r(*geos_, shape_.get()) : nullptr;
    }
    bool lies_within(const GEOSGeometry* other, double reach_m) const {
        return prepared_ != nullptr &&
               GEOSPreparedDistanceWithin_r(*geos_, prepared_, other, reach_m) == 1;
    }

private:
    const Geos& geos_;
    Geos::Owned shape_;
    const GEOSPreparedGeometry* prepared_ = nullptr;
};

// Joins `place` with the later ones that lie within the reach and are not yet of its group.
void join_near(const Footprints& shapes, std::span<const std::uint32_t> which, std::uint32_t place,
               std::span<const std::uint32_t> candidates, double reach_m, Groups& groups) {
    const Geos geos;
    PreparedShape own(geos);
    for (const std::uint32_t other : candidates) {
        if (other <= place || !shapes.has_outline(which[other]) ||
            groups.first_of(place) == groups.first_of(other)) {
            continue;
        }
        if (own.empty()) {
            own.set(shapes.shape(which[place]));
        }
        const auto theirs = geos.owned(shape_in_geos(geos, shapes.shape(which[other])).geometry);
        if (theirs && own.lies_within(theirs.get(), reach_m)) {
            groups.join(place, other);
        }
    }
}

// By most of its vertices, for some may lie on the shell.
bool lies_in(const Polyline& shell, const Polyline& ring) {
    const MultiPolygon ground{{shell, {}}};
    const auto inside = std::ranges::count_if(ring, [&](Point p) { return contains(ground, p); });
    return 2 * static_cast<std::size_t>(inside) > ring.size();
}

}  // namespace

std::vector<std::uint32_t> groups_within(const Footprints& shapes,
                                         std::span<const std::uint32_t> which, Length reach) {
    const double reach_m = in_metres(reach);
    const BoxTree tree(shapes, which);
    Groups groups(which.size());
    std::vector<std::uint32_t> candidates;
    for (std::uint32_t place = 0; place < which.size(); ++place) {
        if (!shapes.has_outline(which[place])) {
            continue;
        }
        Box box = shapes.box(which[place]);
        box.low = {box.low.x - reach_m, box.low.y - reach_m};
        box.high = {box.high.x + reach_m, box.high.y + reach_m};
        tree.touching(box, candidates);
        join_near(shapes, which, place, candidates, reach_m, groups);
    }
    std::vector<std::uint32_t> number(which.size());
    std::uint32_t next = 0;
    for (std::uint32_t place = 0; place < which.size(); ++place) {
        const std::uint32_t first = groups.first_of(place);
        number[place] = first == place ? next++ : number[first];
    }
    return number;
}

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
