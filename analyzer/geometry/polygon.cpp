#include "analyzer/geometry/polygon.h"

#include <algorithm>

namespace farwater {
namespace {

// Twice the signed area and the centroid's moments of one ring, seen from `origin`: large map
// coordinates lose no digits that way.
struct Moments {
    double area2 = 0.0;
    double x6 = 0.0;
    double y6 = 0.0;
};

Moments moments_of(const Polyline& ring, Point origin) {
    Moments sum;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const double ax = ring[i - 1].x - origin.x;
        const double ay = ring[i - 1].y - origin.y;
        const double bx = ring[i].x - origin.x;
        const double by = ring[i].y - origin.y;
        const double cross = ax * by - bx * ay;
        sum.area2 += cross;
        sum.x6 += (ax + bx) * cross;
        sum.y6 += (ay + by) * cross;
    }
    if (sum.area2 < 0.0) {
        sum = {-sum.area2, -sum.x6, -sum.y6};
    }
    return sum;
}

Moments moments_of(const MultiPolygon& shape, Point origin) {
    Moments sum;
    const auto add = [&sum](const Moments& part, double sign) {
        sum.area2 += sign * part.area2;
        sum.x6 += sign * part.x6;
        sum.y6 += sign * part.y6;
    };
    for (const Polygon& polygon : shape) {
        add(moments_of(polygon.shell, origin), 1.0);
        for (const Polyline& hole : polygon.holes) {
            add(moments_of(hole, origin), -1.0);
        }
    }
    return sum;
}

Point origin_of(const MultiPolygon& shape) {
    return shape.empty() || shape.front().shell.empty() ? Point{} : shape.front().shell.front();
}

// Does a ray from p to the east cross the edge? The edge is looked at from its lower end, so that
// both neighbours of a shared border compute the same numbers.
bool ray_crosses(Point a, Point b, Point p) {
    if ((a.y > p.y) == (b.y > p.y)) {
        return false;
    }
    const Point low = a.y < b.y ? a : b;
    const Point high = a.y < b.y ? b : a;
    return (high.x - low.x) * (p.y - low.y) - (p.x - low.x) * (high.y - low.y) > 0.0;
}

bool odd_crossings(const Polyline& ring, Point p) {
    bool odd = false;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        odd ^= ray_crosses(ring[i - 1], ring[i], p);
    }
    return odd;
}

}  // namespace

Box box_of(const MultiPolygon& shape) {
    Box box;
    for (const Polygon& polygon : shape) {
        for (const Point p : polygon.shell) {
            box.include(p);
        }
    }
    return box;
}

Box grown(const Box& box, double by) {
    return {{box.low.x - by, box.low.y - by}, {box.high.x + by, box.high.y + by}};
}

bool side_near(Point a, Point b, const Box& box) {
    return std::min(a.x, b.x) <= box.high.x && std::max(a.x, b.x) >= box.low.x &&
           std::min(a.y, b.y) <= box.high.y && std::max(a.y, b.y) >= box.low.y;
}

double area_m2(const MultiPolygon& shape) {
    return moments_of(shape, origin_of(shape)).area2 / 2.0;
}

std::optional<Point> centroid(const MultiPolygon& shape) {
    const Point origin = origin_of(shape);
    const Moments moments = moments_of(shape, origin);
    if (!(moments.area2 > 0.0)) {
        return std::nullopt;
    }
    return Point{origin.x + moments.x6 / (3.0 * moments.area2),
                 origin.y + moments.y6 / (3.0 * moments.area2)};
}

bool contains(const Polygon& polygon, Point p) {
    bool odd = odd_crossings(polygon.shell, p);
    for (const Polyline& hole : polygon.holes) {
        odd ^= odd_crossings(hole, p);
    }
    return odd;
}

bool contains(const MultiPolygon& shape, Point p) {
    bool odd = false;
    for (const Polygon& polygon : shape) {
        odd ^= contains(polygon, p);
    }
    return odd;
}

std::optional<Point> inside_point(const MultiPolygon& shape) {
    const std::optional<Point> centre = centroid(shape);
    if (centre && contains(shape, *centre)) {
        return centre;
    }
    return point_on_surface(shape);
}

}  // namespace farwater
