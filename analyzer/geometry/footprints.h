// The outlines of many buildings, close together in memory.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/geometry/polygon.h"

namespace farwater {

// 16 bytes a vertex, 8 a ring and 12 a building.
class Footprints {
public:
    void add(const MultiPolygon& shape, double area_m2);  // in the order of the buildings
    void add_point(Point place);                          // a building whose outline is not known

    std::size_t size() const { return buildings_.size(); }
    bool has_outline(std::size_t building) const { return buildings_[building].area_m2 > 0.0F; }
    double area_m2(std::size_t building) const {
        return static_cast<double>(buildings_[building].area_m2);
    }
    Box box(std::size_t building) const;
    MultiPolygon shape(std::size_t building) const;              // empty for a point
    std::span<const Point> corners(std::size_t building) const;  // of all its rings
    // True wherever the building and the shape share ground, and sometimes where they only pass
    // each other closely. O(vertices of both).
    bool may_lie_on(std::size_t building, const MultiPolygon& shape) const;
    Point first_vertex(std::size_t building) const { return vertices_[rings_of(building).vertex]; }

private:
    struct Ring {
        std::uint32_t vertex = 0;  // where it begins
        bool hole = false;
    };
    struct Entry {
        std::uint32_t ring = 0;  // where its rings begin
        std::uint32_t rings = 0;
        float area_m2 = 0.0F;
    };
    const Ring& rings_of(std::size_t building) const { return rings_[buildings_[building].ring]; }
    std::size_t end_of_ring(std::size_t ring) const;
    void add_ring(const Polyline& line, bool hole);

    std::vector<Point> vertices_;
    std::vector<Ring> rings_;
    std::vector<Entry> buildings_;
};

// The share of the building's footprint that lies on the shape, 0 to 1; 0 for a point.
double share_on(const Footprints& footprints, std::size_t building, const MultiPolygon& shape);

}  // namespace farwater
