// Plain plane geometry for the generator, in metres. Only + - * / and square roots are used, which
// every machine rounds alike, so that the same seed gives the same bytes everywhere.
#pragma once

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater::sample {

constexpr double square_metres_per_acre = 4046.8564224;

constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
constexpr Point operator*(Point a, double k) { return {a.x * k, a.y * k}; }
constexpr double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
constexpr double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
constexpr Point left_of(Point direction) { return {-direction.y, direction.x}; }
inline double norm(Point a) { return std::sqrt(dot(a, a)); }
inline double metres_between(Point a, Point b) { return norm(b - a); }
// Length 1; {1, 0} for the zero vector.
inline Point unit(Point a) {
    const double length = norm(a);
    return length > 0 ? a * (1 / length) : Point{1, 0};
}
// To the centimetre, as all coordinates are stored.
inline Point rounded(Point p) { return {std::round(p.x * 100) / 100, std::round(p.y * 100) / 100}; }

// Rings without the closing repetition of the first point: the first anticlockwise, the holes
// clockwise.
struct Polygon {
    std::vector<Polyline> rings;
};
// The parts of one parcel.
using Polygons = std::vector<Polygon>;

double signed_area(const Polyline& ring);      // > 0 if anticlockwise
double area(const Polygons& polygons);         // holes taken off
bool contains(const Polyline& ring, Point p);  // either answer on the boundary
bool contains(const Polygons& polygons, Point p);
Point middle_of(const Polyline& ring);  // mean of the corners; {0, 0} when empty

double metres_to_segment(Point p, Point a, Point b);
double metres_to_line(Point p, const Polyline& line);  // infinite for an empty line

// Where segments a-b and c-d cross, as a share of a-b in [0, 1]; none if they do not or are
// parallel.
std::optional<double> crossing(Point a, Point b, Point c, Point d);

// A place along a line and the direction of travel there.
struct Station {
    Point place;
    Point direction;
};
double metres_along(const Polyline& line);
// Clamped to the line's ends. Precondition: two points or more.
Station station_at(const Polyline& line, double metres);
// The piece from one distance along to another; ends are rounded to the centimetre.
// Precondition: 0 <= from < to <= metres_along(line).
Polyline piece(const Polyline& line, double from, double to);

// Cuts corners once (Chaikin 1974, from memory); the ends stay.
Polyline with_cut_corners(const Polyline& line);
// Drops points that are closer than `tolerance` to the line through what is left (Douglas and
// Peucker 1973, from memory); the ends stay.
Polyline simplified(const Polyline& line, double tolerance);

// A convex quadrilateral, the outline of a township: south-west, south-east, north-east,
// north-west.
struct Outline {
    std::array<Point, 4> corners;
    Point south(double share) const { return along(0, 1, share); }  // from west to east
    Point north(double share) const { return along(3, 2, share); }
    Point west(double share) const { return along(0, 3, share); }  // from south to north
    Point east(double share) const { return along(1, 2, share); }
    Point middle() const;
    Box box() const;
    // Distance from the nearest side, negative outside. Exact inside.
    double inside_by(Point p) const;

private:
    Point along(std::size_t from, std::size_t to, double share) const {
        return rounded(corners[from] + (corners[to] - corners[from]) * share);
    }
};

}  // namespace farwater::sample
