#include "routing/noding/vertices.h"

#include <algorithm>

namespace farwater::routing {
namespace {

constexpr double most_inside = 0.05;  // metres

}  // namespace

bool has_length(const Polyline& line) {
    return std::ranges::any_of(line, [&](const Point& point) { return point != line.front(); });
}

void Vertices::leave_out(std::uint32_t road) {
    for (std::uint32_t v = first[road]; v < first[road + 1]; ++v) {
        roads[v] = nowhere;
    }
}

Vertices vertices_of(const std::vector<Road>& roads) {
    Vertices vertices;
    vertices.first.reserve(roads.size() + 1);
    vertices.first.push_back(0);
    for (const Road& road : roads) {
        vertices.first.push_back(vertices.first.back() +
                                 static_cast<std::uint32_t>(road.line.size()));
    }
    vertices.points.reserve(vertices.first.back());
    vertices.roads.reserve(vertices.first.back());
    for (std::uint32_t r = 0; r < roads.size(); ++r) {
        const Polyline& line = roads[r].line;
        vertices.points.insert(vertices.points.end(), line.begin(), line.end());
        vertices.roads.insert(vertices.roads.end(), line.size(),
                              has_length(line) ? r : Vertices::nowhere);
    }
    return vertices;
}

JoinReach reach_of(Length join_tolerance) {
    const double end = in_metres(join_tolerance);
    return {end, std::min(end, most_inside)};
}

double metres_between(const Vertices& vertices, std::uint32_t first, std::uint32_t last,
                      double enough) {
    double along = 0.0;
    for (std::uint32_t v = first; v < last && along <= enough; ++v) {
        along += in_metres(distance(vertices.points[v], vertices.points[v + 1]));
    }
    return along;
}

}  // namespace farwater::routing
