// Which of many shapes lie near each other.
#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include <geos_c.h>

#include "analyzer/district/disjoint_sets.h"
#include "analyzer/geometry/dissolve.h"
#include "analyzer/geometry/geos_shape.h"

namespace farwater {
namespace {

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

// Joins those that have a corner in common, which takes no measuring.
void join_at_corners(const Footprints& shapes, std::span<const std::uint32_t> which,
                     DisjointSets& groups) {
    std::vector<std::pair<Point, std::uint32_t>> corners;
    for (std::uint32_t place = 0; place < which.size(); ++place) {
        if (shapes.has_outline(which[place])) {
            for (const Point corner : shapes.corners(which[place])) {
                corners.emplace_back(corner, place);
            }
        }
    }
    std::ranges::sort(corners);
    for (std::size_t i = 1; i < corners.size(); ++i) {
        if (corners[i - 1].first == corners[i].first) {
            groups.join(corners[i - 1].second, corners[i].second);
        }
    }
}

// A shape with the box round it.
struct BoxedShape {
    MultiPolygon shape;
    Box box;
};

// The runs of sides whose boxes touch the box.
void add_lines(const Polyline& ring, const Box& box, std::vector<Polyline>& lines) {
    bool in_run = false;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const bool near = side_near(ring[i - 1], ring[i], box);
        if (near && !in_run) {
            lines.push_back({ring[i - 1]});
        }
        if (near) {
            lines.back().push_back(ring[i]);
        }
        in_run = near;
    }
}

std::vector<Polyline> border_in(const MultiPolygon& shape, const Box& box) {
    std::vector<Polyline> lines;
    for (const Polygon& polygon : shape) {
        add_lines(polygon.shell, box, lines);
        for (const Polyline& hole : polygon.holes) {
            add_lines(hole, box, lines);
        }
    }
    return lines;
}

// Only the borders that lie near the other's box are measured; where they are not within the
// reach, one shape may still lie in the other's ground.
bool lie_within(const BoxedShape& a, const BoxedShape& b, double reach_m) {
    const std::vector<Polyline> of_a = border_in(a.shape, grown(b.box, reach_m));
    const std::vector<Polyline> of_b = border_in(b.shape, grown(a.box, reach_m));
    const Geos geos;
    const auto lines_a = geos.owned(lines_in_geos(geos, of_a));
    const auto lines_b = geos.owned(lines_in_geos(geos, of_b));
    return (lines_a && lines_b &&
            GEOSDistanceWithin_r(*geos, lines_a.get(), lines_b.get(), reach_m) == 1) ||
           contains(a.shape, b.shape.front().shell.front()) ||
           contains(b.shape, a.shape.front().shell.front());
}

// Joins `place` with the later ones that lie within the reach and are not yet of its group.
void join_near(const Footprints& shapes, std::span<const std::uint32_t> which, std::uint32_t place,
               std::span<const std::uint32_t> candidates, double reach_m, DisjointSets& groups) {
    const auto boxed = [&](std::uint32_t at) {
        return BoxedShape{shapes.shape(which[at]), shapes.box(which[at])};
    };
    std::optional<BoxedShape> own;
    for (const std::uint32_t other : candidates) {
        if (other <= place || !shapes.has_outline(which[other]) ||
            groups.least(place) == groups.least(other)) {
            continue;
        }
        if (!own) {
            own = boxed(place);
        }
        if (lie_within(*own, boxed(other), reach_m)) {
            groups.join(place, other);
        }
    }
}

}  // namespace

std::vector<std::uint32_t> groups_within(const Footprints& shapes,
                                         std::span<const std::uint32_t> which, Length reach) {
    const double reach_m = in_metres(reach);
    DisjointSets groups(which.size());
    join_at_corners(shapes, which, groups);
    const BoxTree tree(shapes, which);
    std::vector<std::uint32_t> candidates;
    for (std::uint32_t place = 0; place < which.size(); ++place) {
        if (!shapes.has_outline(which[place])) {
            continue;
        }
        tree.touching(grown(shapes.box(which[place]), reach_m), candidates);
        join_near(shapes, which, place, candidates, reach_m, groups);
    }
    std::vector<std::uint32_t> number(which.size());
    std::uint32_t next = 0;
    for (std::uint32_t place = 0; place < which.size(); ++place) {
        const std::uint32_t first = groups.least(place);
        number[place] = first == place ? next++ : number[first];
    }
    return number;
}

}  // namespace farwater
