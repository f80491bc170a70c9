#include "routing/nearest_road.h"

#include <algorithm>

namespace farwater::routing {

Point nearest_on(Point a, Point b, Point p) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double square = dx * dx + dy * dy;
    const double share = square > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0.0;
    if (share <= 0.0) {
        return a;
    }
    return share >= 1.0 ? b : Point{a.x + share * dx, a.y + share * dy};
}

double metres_along(const std::vector<Road>& roads, const NearestPlace& nearest) {
    const Polyline& line = roads[nearest.segment.road].line;
    double along = 0.0;
    for (std::size_t i = 0; i < nearest.segment.vertex; ++i) {
        along += in_metres(distance(line[i], line[i + 1]));
    }
    return along + in_metres(distance(line[nearest.segment.vertex], nearest.place));
}

}  // namespace farwater::routing
