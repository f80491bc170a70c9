// Points and lines in the working plane: metres east and north in the working CRS (a conformal
// projected CRS; `io` converts other linear units at the door, so the core only sees metres).
#pragma once

#include <cmath>
#include <limits>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater {

struct Point {
    double x = 0.0;
    double y = 0.0;
    friend constexpr auto operator<=>(const Point&, const Point&) = default;
};

// WGS 84, as a phone tells and asks for them. Nothing is worked out with them.
struct Degrees {
    double latitude = 0.0;
    double longitude = 0.0;
};

using Polyline = std::vector<Point>;

struct Box {
    static constexpr double far = std::numeric_limits<double>::infinity();
    Point low{far, far};
    Point high{-far, -far};
    constexpr bool empty() const { return low.x > high.x; }
    constexpr void include(Point p) {
        low = {p.x < low.x ? p.x : low.x, p.y < low.y ? p.y : low.y};
        high = {p.x > high.x ? p.x : high.x, p.y > high.y ? p.y : high.y};
    }
};

inline double distance_squared(Point a, Point b) {
    return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
}
inline Length distance(Point a, Point b) { return metres(std::sqrt(distance_squared(a, b))); }

// 0 for a line of fewer than two points.
inline Length length_of(const Polyline& line) {
    Length sum;
    for (std::size_t i = 1; i < line.size(); ++i) {
        sum += distance(line[i - 1], line[i]);
    }
    return sum;
}

// To the millimetre: what we compute ourselves is stored so (input geometry passes unrounded).
inline Point rounded_to_mm(Point p) {
    return {std::round(p.x * 1e3) / 1e3, std::round(p.y * 1e3) / 1e3};
}

}  // namespace farwater
