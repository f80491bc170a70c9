// Polygons on plain coordinates: area, inside point, containment, validity and repair.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater {

// Closed rings (first vertex = last). Holes lie in the shell.
struct Polygon {
    Polyline shell;
    std::vector<Polyline> holes;
};

using MultiPolygon = std::vector<Polygon>;

Box box_of(const MultiPolygon& shape);
Box grown(const Box& box, double by);  // on all four sides

// The box of the side from `a` to `b` touches this box.
bool side_near(Point a, Point b, const Box& box);

// Square metres, holes taken off; whatever the ring's direction. O(vertices).
double area_m2(const MultiPolygon& shape);

// Even-odd rule. A point on a border that two polygons of a tiling share lies in exactly one of
// them. O(vertices).
bool contains(const MultiPolygon& shape, Point p);
bool contains(const Polygon& polygon, Point p);

// Centre of the area; may lie outside. None for a shape without area. O(vertices).
std::optional<Point> centroid(const MultiPolygon& shape);

// The centroid where it lies inside, else point_on_surface. O(vertices log vertices).
std::optional<Point> inside_point(const MultiPolygon& shape);

// A point of the shape, far from its border where that is easy (GEOS); none for an empty shape.
std::optional<Point> point_on_surface(const MultiPolygon& shape);

// As the OGC simple-feature rules have it (GEOS). A ring of fewer than four vertices is not valid.
bool is_valid(const MultiPolygon& shape);

// True only where a ring is certainly simple: closed, with no side that touches another. Plain
// arithmetic with its error bound; rings of more than 64 vertices are not looked at. O(vertices
// squared).
bool certainly_simple(const Polyline& ring);

// A valid shape that covers the same ground: the polygonal part of GEOS's MakeValid. None when
// nothing with an area is left.
std::optional<MultiPolygon> repaired(const MultiPolygon& shape);

}  // namespace farwater
