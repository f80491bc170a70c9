#include "routing/structures/nearest_road.h"

namespace farwater::routing {

double metres_along(const std::vector<Road>& roads, const NearestPlace& nearest) {
    const Polyline& line = roads[nearest.segment.road].line;
    double along = 0.0;
    for (std::size_t i = 0; i < nearest.segment.vertex; ++i) {
        along += in_metres(distance(line[i], line[i + 1]));
    }
    return along + in_metres(distance(line[nearest.segment.vertex], nearest.place));
}

}  // namespace farwater::routing
