#include "analyzer/geometry/footprints.h"

#include <algorithm>

namespace farwater {

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

std::span<const Point> Footprints::corners(std::size_t building) const {
    const Entry& entry = buildings_[building];
    const std::size_t begin = rings_[entry.ring].vertex;
    return std::span(vertices_).subspan(begin, end_of_ring(entry.ring + entry.rings - 1) - begin);
}

Box Footprints::box(std::size_t building) const {
    Box box;
    for (const Point corner : corners(building)) {
        box.include(corner);
    }
    return box;
}

bool Footprints::may_lie_on(std::size_t building, const MultiPolygon& shape) const {
    for (const Point corner : corners(building)) {
        if (contains(shape, corner)) {
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
