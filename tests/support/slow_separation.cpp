#include "tests/support/slow_separation.h"

#include <algorithm>
#include <cmath>

namespace farwater::support {
namespace {

double to_wall(Point p, Point a, Point b) {
    const double along = distance_squared(a, b);
    double t = along > 0 ? ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / along : 0;
    t = std::clamp(t, 0.0, 1.0);
    return std::sqrt(distance_squared(p, {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}));
}

double turn(Point a, Point b, Point c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool walls_cross(Point a, Point b, Point c, Point d) {
    return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

bool within(const Polyline& ring, Point p) {
    bool in = false;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const Point a = ring[i - 1];
        const Point b = ring[i];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) {
            in = !in;
        }
    }
    return in;
}

// A point as a wall of no length.
Polyline walls(const Polyline& ring) {
    return ring.size() == 1 ? Polyline{ring[0], ring[0]} : ring;
}

double apart(const Polyline& one, const Polyline& two) {
    const Polyline a = walls(one);
    const Polyline b = walls(two);
    double nearest = 1e18;
    for (std::size_t i = 1; i < a.size(); ++i) {
        for (std::size_t j = 1; j < b.size(); ++j) {
            if (walls_cross(a[i - 1], a[i], b[j - 1], b[j])) {
                return 0;
            }
            nearest =
                std::min({nearest, to_wall(a[i], b[j - 1], b[j]), to_wall(b[j], a[i - 1], a[i])});
        }
    }
    return within(a, b[0]) || within(b, a[0]) ? 0 : nearest;
}

Point middle(const Polyline& ring) {
    Box box;
    for (const Point p : ring) {
        box.include(p);
    }
    return {(box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2};
}

std::size_t side(const Polyline& own, const Polyline& other) {
    Point wall{1, 0};
    double longest = 0;
    for (std::size_t i = 1; i < own.size(); ++i) {
        if (distance_squared(own[i - 1], own[i]) > longest) {
            longest = distance_squared(own[i - 1], own[i]);
            wall = {own[i].x - own[i - 1].x, own[i].y - own[i - 1].y};
        }
    }
    const Point from = middle(own);
    const Point to = middle(other);
    const double along = (to.x - from.x) * wall.x + (to.y - from.y) * wall.y;
    const double across = wall.x * (to.y - from.y) - wall.y * (to.x - from.x);
    if (std::abs(along) >= std::abs(across)) {
        return along >= 0 ? 0 : 2;
    }
    return across >= 0 ? 1 : 3;
}

}  // namespace

Separation slow_separation(const std::vector<PlainBuilding>& buildings, std::size_t which,
                           double reach_m, double large_m2) {
    Separation found;
    const PlainBuilding& own = buildings[which];
    if (own.ring.size() == 1) {
        return found;
    }
    found.known = true;
    std::array<double, 4> sides{1e9, 1e9, 1e9, 1e9};
    for (std::size_t i = 0; i < buildings.size(); ++i) {
        const double distance = i == which ? 1e9 : apart(own.ring, buildings[i].ring);
        if (distance > reach_m) {
            continue;
        }
        const bool large = buildings[i].ring.size() == 1 || buildings[i].area_m2 >= large_m2;
        found.nearest_m = std::min(found.nearest_m, static_cast<float>(distance));
        if (large) {
            found.nearest_large_m = std::min(found.nearest_large_m, static_cast<float>(distance));
            double& nearest = sides[side(own.ring, buildings[i].ring)];
            nearest = std::min(nearest, distance);
        }
    }
    for (std::size_t s = 0; s < sides.size(); ++s) {
        found.sides_ft[s] = sides[s] > reach_m
                                ? Separation::no_side
                                : static_cast<std::uint8_t>((sides[s] + 0.0005) / metres_per_foot);
    }
    return found;
}

}  // namespace farwater::support
