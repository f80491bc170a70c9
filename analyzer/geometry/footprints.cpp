#include "analyzer/geometry/footprints.h"

#include <algorithm>

namespace farwater {
namespace {

// The boxes of the side and of the building touch.
bool side_near(Point a, Point b, const Box& box) {
    return std::min(a.x, b.x) <= box.high.x && std::max(a.x, b.x) >= box.low.x &&
           std::min(a.y, b.y) <= box.high.y && std::max(a.y, b.y) >= box.low.y;
}

}  // namespace

void Footprints::add_ring(const Polyline& line, bool hole) {
    rings_.push_back({static_cast<std::uint32_t>(vertices_.size()), hole});
    vertices_.insert(vertices_.end(), line.begin(), line.end());
}

void Footprints::add(const MultiPolygon& shape, double area_m2) {
    const auto first = static_cast<std::uint32_t>(rings_.size());
    for (const Polygon& polygon : shape) {
        add_ring(polygon.shell, false);
        for (const Polyline& hole : polygon.holes) {
            add_ring(hole, true);
        }
    }
    buildings_.push_back(
        {first, static_cast<std::uint32_t>(rings_.size()) - first, static_cast<float>(area_m2)});
}

void Footprints::add_point(Point place) {
    const auto first = static_cast<std::uint32_t>(rings_.size());
    add_ring({place}, false);
    buildings_.push_back({first, 1, 0.0F});
}

std::size_t Footprints::end_of_ring(std::size_t ring) const {
    return ring + 1 < rings_.size() ? rings_[ring + 1].vertex : vertices_.size();
}

Box Footprints::box(std::size_t building) const {
    const Entry& entry = buildings_[building];
    Box box;
    for (std::size_t v = rings_[entry.ring].vertex; v < end_of_ring(entry.ring + entry.rings - 1);
         ++v) {
        box.include(vertices_[v]);
    }
    return box;
}

bool Footprints::may_lie_on(std::size_t building, const MultiPolygon& shape) const {
    const Entry& entry = buildings_[building];
    for (std::size_t v = rings_[entry.ring].vertex; v < end_of_ring(entry.ring + entry.rings - 1);
         ++v) {
        if (contains(shape, vertices_[v])) {
            return true;
        }
    }
    const Box own = box(building);
    for (const Polygon& polygon : shape) {
        for (std::size_t i = 1; i < polygon.shell.size(); ++i) {
            if (side_near(polygon.shell[i - 1], polygon.shell[i], own)) {
                return true;
            }
        }
    }
    return false;
}

MultiPolygon Footprints::shape(std::size_t building) const {
    MultiPolygon shape;
    const Entry& entry = buildings_[building];
    for (std::size_t r = entry.ring; has_outline(building) && r < entry.ring + entry.rings; ++r) {
        const auto begin = vertices_.begin() + rings_[r].vertex;
        const auto end = vertices_.begin() + static_cast<std::ptrdiff_t>(end_of_ring(r));
        if (rings_[r].hole) {
            shape.back().holes.emplace_back(begin, end);
        } else {
            shape.push_back({Polyline(begin, end), {}});
        }
    }
    return shape;
}

}  // namespace farwater
