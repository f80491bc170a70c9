// Lines and areas as a page holds them: simplified, on a grid, each vertex as the step from the
// one before.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater::reports {

// One grid for the whole page, so that a border that two parcels share stays one.
struct PageGrid {
    Point origin;  // a whole number of steps
    static constexpr double step_m = 0.5;
    static constexpr double tolerance_m = 0.75;  // how far a border may leave its true place

    static PageGrid at(const Box& extent);
};

// Without the vertices that lie within `tolerance_m` of the line through those that stay (Douglas
// and Peucker 1973). A ring stays closed. O(vertices log vertices) on most lines.
Polyline simplified(const Polyline& line, double tolerance_m);

// Rows of shapes, one behind the other. A row is the number of its parts; a part is the number of
// its vertices, then for each the signed steps east and north from the vertex before, across parts
// and rows.
class PackedShapes {
public:
    explicit PackedShapes(PageGrid grid) : grid_(grid) {}

    // A row of areas: shells run counter-clockwise and holes, those rings that lie in an odd number
    // of others, clockwise, so that of rows drawn as one by the nonzero rule those that overlap
    // stay filled. The closing vertex is left out; rings that shrink to less than a triangle are
    // left out too. A row without rings has no parts. O(vertices x rings of the row).
    void add_areas(std::span<const Polyline> rings);
    // A row of one line, or of one point; no part for an empty one.
    void add_line(const Polyline& line);

    std::size_t rows() const { return rows_; }
    const std::string& bytes() const { return bytes_; }

private:
    struct Spot {
        std::int64_t east = 0;
        std::int64_t north = 0;
        friend bool operator==(Spot, Spot) = default;
    };
    std::vector<Spot> spots_of(const Polyline& line) const;
    std::vector<Spot> ring_of(const Polyline& ring, bool as_hole) const;
    void append(std::span<const Spot> part);

    PageGrid grid_;
    Spot last_;
    std::size_t rows_ = 0;
    std::string bytes_;
};

}  // namespace farwater::reports
