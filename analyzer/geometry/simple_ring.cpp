// A quick answer to "is this ring simple?" for the small rings that most parcels and buildings are;
// whoever gets no answer asks GEOS, which takes ten times as long.
#include <algorithm>
#include <cmath>

#include "analyzer/geometry/polygon.h"

namespace farwater {
namespace {

constexpr std::size_t most_vertices = 64;

// 1: c lies left of a-b, -1: right, 0: it is too close to tell. The bound is that of J. R.
// Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates"
// (1997), ccwerrboundA.
int certain_side(Point a, Point b, Point c) {
    const double left = (a.x - c.x) * (b.y - c.y);
    const double right = (a.y - c.y) * (b.x - c.x);
    const double bound = 3.3306690738754716e-16 * (std::abs(left) + std::abs(right));
    const double determinant = left - right;
    return determinant > bound ? 1 : (determinant < -bound ? -1 : 0);
}

bool boxes_apart(Point a, Point b, Point c, Point d) {
    return std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x) ||
           std::max(a.y, b.y) < std::min(c.y, d.y) || std::max(c.y, d.y) < std::min(a.y, b.y);
}

bool same_certain_side(Point a, Point b, Point c, Point d) {
    const int side = certain_side(a, b, c);
    return side != 0 && side == certain_side(a, b, d);
}

bool certainly_apart(Point a, Point b, Point c, Point d) {
    return boxes_apart(a, b, c, d) || same_certain_side(a, b, c, d) ||
           same_certain_side(c, d, a, b);
}

// Side b-c does not run back over a-b: it bends, or goes on.
bool certainly_goes_on(Point a, Point b, Point c) {
    const double onward = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
    return onward > 0.0 || certain_side(a, b, c) != 0;
}

}  // namespace

bool certainly_simple(const Polyline& ring) {
    if (ring.size() < 4 || ring.size() > most_vertices || ring.front() != ring.back()) {
        return false;
    }
    const std::size_t sides = ring.size() - 1;
    for (std::size_t i = 0; i < sides; ++i) {
        if (!certainly_goes_on(ring[i], ring[i + 1], ring[i + 2 > sides ? 1 : i + 2])) {
            return false;
        }
        // The last side meets the first one in the first vertex.
        const std::size_t end = i == 0 ? sides - 1 : sides;
        for (std::size_t j = i + 2; j < end; ++j) {
            if (!certainly_apart(ring[i], ring[i + 1], ring[j], ring[j + 1])) {
                return false;
            }
        }
    }
    return true;
}

}  // namespace farwater
