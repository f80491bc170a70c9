#include "analyzer/geometry/separation.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <geos_c.h>

#include "analyzer/geometry/geos_shape.h"

namespace farwater {
namespace {

GEOSGeometry* building_in_geos(const Geos& geos, const Footprints& footprints, std::size_t i) {
    if (!footprints.has_outline(i)) {
        const Point place = footprints.first_vertex(i);
        return GEOSGeom_createPointFromXY_r(*geos, place.x, place.y);
    }
    return shape_in_geos(geos, footprints.shape(i)).geometry;
}

GEOSGeometry* box_in_geos(const Geos& geos, const Box& box) {
    return GEOSGeom_createRectangle_r(*geos, box.low.x, box.low.y, box.high.x, box.high.y);
}

double gap(const Box& a, const Box& b) {
    const double x = std::max({0.0, b.low.x - a.high.x, a.low.x - b.high.x});
    const double y = std::max({0.0, b.low.y - a.high.y, a.low.y - b.high.y});
    return std::sqrt(x * x + y * y);
}

Point middle(const Box& box) {
    return {(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0};
}

// Along the longest wall, not of unit length; of equals the first.
Point longest_wall(const MultiPolygon& shape) {
    Point longest{1.0, 0.0};
    double best = 0.0;
    for (const Polygon& polygon : shape) {
        for (std::size_t i = 1; i < polygon.shell.size(); ++i) {
            const double length = distance_squared(polygon.shell[i - 1], polygon.shell[i]);
            if (length > best) {
                best = length;
                longest = {polygon.shell[i].x - polygon.shell[i - 1].x,
                           polygon.shell[i].y - polygon.shell[i - 1].y};
            }
        }
    }
    return longest;
}

// 0 to 3: ahead along the wall, left of it, behind, right.
std::size_t side_of(Point wall, Point from, Point to) {
    const Point d{to.x - from.x, to.y - from.y};
    const double along = d.x * wall.x + d.y * wall.y;
    const double across = wall.x * d.y - wall.y * d.x;
    if (std::abs(along) >= std::abs(across)) {
        return along >= 0.0 ? 0 : 2;
    }
    return across >= 0.0 ? 1 : 3;
}

struct Candidate {
    double box_gap = 0.0;
    std::uint32_t building = 0;
    std::size_t side = 0;
    bool large = false;
};

// The nearest so far; a candidate whose box is not nearer than all that it could better is passed.
struct NearestSoFar {
    double any, large;
    std::array<double, 4> sides;

    bool can_better(const Candidate& c) const {
        return c.box_gap < any || (c.large && (c.box_gap < large || c.box_gap < sides[c.side]));
    }
    void take(const Candidate& c, double distance) {
        any = std::min(any, distance);
        if (c.large) {
            large = std::min(large, distance);
            sides[c.side] = std::min(sides[c.side], distance);
        }
    }
};

// Whole feet, rounded down; half a millimetre is none.
std::uint8_t whole_feet(double metres_off) {
    return static_cast<std::uint8_t>(
        std::min(254.0, std::floor(in_feet(metres(metres_off + 0.0005)))));
}

Separation separation_of(const NearestSoFar& nearest, double beyond) {
    const auto told = [beyond](double metres_off) {
        return metres_off < beyond ? static_cast<float>(metres_off) : Separation::none;
    };
    Separation separation{told(nearest.any), told(nearest.large), {}, true};
    for (std::size_t s = 0; s < nearest.sides.size(); ++s) {
        separation.sides_ft[s] =
            nearest.sides[s] < beyond ? whole_feet(nearest.sides[s]) : Separation::no_side;
    }
    return separation;
}

double common_area(const Geos& geos, const GEOSGeometry* a, const GEOSGeometry* b) {
    const auto common = geos.owned(GEOSIntersection_r(*geos, a, b));
    double area = 0.0;
    if (common == nullptr || GEOSArea_r(*geos, common.get(), &area) == 0) {
        return 0.0;
    }
    return area;
}

}  // namespace

struct SeparationIndex::Tree {
    Geos geos;
    std::vector<std::uint32_t> numbers;  // the tree's items point here
    GEOSSTRtree* tree = nullptr;

    explicit Tree(std::size_t size) : tree(GEOSSTRtree_create_r(*geos, 10)) {
        numbers.reserve(size);
    }
    ~Tree() { GEOSSTRtree_destroy_r(*geos, tree); }
    Tree(const Tree&) = delete;
    Tree& operator=(const Tree&) = delete;

    void insert(std::uint32_t number, const Box& box) {
        numbers.push_back(number);
        const auto envelope = geos.owned(box_in_geos(geos, box));
        GEOSSTRtree_insert_r(*geos, tree, envelope.get(), &numbers.back());
    }
    std::vector<std::uint32_t> touching(const Geos& own, const Box& box) const {
        std::vector<std::uint32_t> found;
        const auto envelope = own.owned(box_in_geos(own, box));
        GEOSSTRtree_query_r(
            *own, tree, envelope.get(),
            [](void* item, void* list) {
                static_cast<std::vector<std::uint32_t>*>(list)->push_back(
                    *static_cast<const std::uint32_t*>(item));
            },
            &found);
        return found;
    }

    // Nearest box first.
    std::vector<Candidate> near(const Footprints& footprints, const SeparationRules& rules,
                                std::size_t building, Point wall) const {
        const Geos own;
        const Box box = footprints.box(building);
        std::vector<Candidate> candidates;
        for (const std::uint32_t other : touching(own, grown(box, in_metres(rules.reach)))) {
            if (other == building) {
                continue;
            }
            const Box theirs = footprints.box(other);
            const bool large =
                !footprints.has_outline(other) || footprints.area_m2(other) >= rules.large_m2;
            candidates.push_back(
                {gap(box, theirs), other, side_of(wall, middle(box), middle(theirs)), large});
        }
        std::ranges::sort(candidates, [](const Candidate& a, const Candidate& b) {
            return a.box_gap != b.box_gap ? a.box_gap < b.box_gap : a.building < b.building;
        });
        return candidates;
    }
};

SeparationIndex::SeparationIndex(const Footprints& footprints, SeparationRules rules)
    : footprints_(&footprints), rules_(rules), tree_(std::make_unique<Tree>(footprints.size())) {
    for (std::size_t i = 0; i < footprints.size(); ++i) {
        tree_->insert(static_cast<std::uint32_t>(i), footprints.box(i));
    }
    // The tree is packed at its first question; after that nobody changes it.
    tree_->touching(tree_->geos, {{0, 0}, {0, 0}});
}

SeparationIndex::~SeparationIndex() = default;

std::vector<std::uint32_t> SeparationIndex::touching(const Box& box) const {
    const Geos geos;
    std::vector<std::uint32_t> found = tree_->touching(geos, box);
    std::ranges::sort(found);
    return found;
}

Surroundings SeparationIndex::around(std::size_t building) const {
    if (!footprints_->has_outline(building)) {
        return {};
    }
    const MultiPolygon shape = footprints_->shape(building);
    const std::vector<Candidate> candidates =
        tree_->near(*footprints_, rules_, building, longest_wall(shape));
    const Geos geos;
    const auto own = geos.owned(shape_in_geos(geos, shape).geometry);
    const double beyond = std::nextafter(in_metres(rules_.reach), Box::far);
    NearestSoFar nearest{beyond, beyond, {beyond, beyond, beyond, beyond}};
    Surroundings result;
    for (const Candidate& candidate : candidates) {
        const bool may_overlap = candidate.box_gap <= 0.0 && candidate.building < building;
        if (!may_overlap && !nearest.can_better(candidate)) {
            continue;
        }
        const auto other = geos.owned(building_in_geos(geos, *footprints_, candidate.building));
        double distance = 0.0;
        if (GEOSDistance_r(*geos, own.get(), other.get(), &distance) == 0) {
            distance = candidate.box_gap;  // refused by GEOS: never farther than it is
        }
        nearest.take(candidate, distance);
        const double smaller =
            std::min(footprints_->area_m2(building), footprints_->area_m2(candidate.building));
        if (may_overlap && distance <= 0.0 && smaller > 0.0 &&
            common_area(geos, own.get(), other.get()) >= smaller / 2.0) {
            result.covers = candidate.building;
        }
    }
    result.separation = separation_of(nearest, beyond);
    return result;
}

double share_on(const Footprints& footprints, std::size_t building, const MultiPolygon& shape) {
    if (!footprints.has_outline(building)) {
        return 0.0;
    }
    const Geos geos;
    const auto own = geos.owned(building_in_geos(geos, footprints, building));
    const auto land = geos.owned(shape_in_geos(geos, shape).geometry);
    return common_area(geos, own.get(), land.get()) / footprints.area_m2(building);
}

}  // namespace farwater
