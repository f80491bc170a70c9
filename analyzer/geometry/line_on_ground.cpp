#include "analyzer/geometry/line_on_ground.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace farwater {
namespace {

Point between(Point a, Point b, double share) {
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

// Shares of the way at which the sides of a ring are met.
void add_meetings(const Polyline& ring, Point a, Point b, std::vector<double>& shares) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        const double sx = ring[i + 1].x - ring[i].x;
        const double sy = ring[i + 1].y - ring[i].y;
        const double cross = dx * sy - dy * sx;
        if (cross == 0.0) {
            continue;  // along the way, or beside it: the sides next to it are met
        }
        const double ox = ring[i].x - a.x;
        const double oy = ring[i].y - a.y;
        const double on_way = (ox * sy - oy * sx) / cross;
        const double on_side = (ox * dy - oy * dx) / cross;
        if (on_way > 0.0 && on_way < 1.0 && on_side >= 0.0 && on_side <= 1.0) {
            shares.push_back(on_way);
        }
    }
}

// In order, both ends among them.
std::vector<double> meetings(const MultiPolygon& ground, Point a, Point b) {
    std::vector<double> shares{0.0, 1.0};
    for (const Polygon& polygon : ground) {
        add_meetings(polygon.shell, a, b, shares);
        for (const Polyline& hole : polygon.holes) {
            add_meetings(hole, a, b, shares);
        }
    }
    std::ranges::sort(shares);
    return shares;
}

}  // namespace

double metres_on_ground(const MultiPolygon& ground, Point a, Point b) {
    const std::vector<double> shares = meetings(ground, a, b);
    double inside = 0.0;
    for (std::size_t i = 0; i + 1 < shares.size(); ++i) {
        if (contains(ground, between(a, b, (shares[i] + shares[i + 1]) / 2.0))) {
            inside += shares[i + 1] - shares[i];
        }
    }
    return inside * std::sqrt(distance_squared(a, b));
}

}  // namespace farwater
