// The vertices of all road lines in one list, as joining looks at them.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/road.h"

namespace farwater::routing {

struct Vertices {
    std::vector<std::uint32_t> first;  // per road, and one more: vertices numbered through
    std::vector<Point> points;
    std::vector<std::uint32_t> roads;  // per vertex; nowhere on a road that takes no part

    static constexpr std::uint32_t nowhere = UINT32_MAX;

    bool takes_part(std::uint32_t vertex) const { return roads[vertex] != nowhere; }
    bool is_first(std::uint32_t vertex) const { return vertex == first[roads[vertex]]; }
    bool is_last(std::uint32_t vertex) const { return vertex + 1 == first[roads[vertex] + 1]; }
    bool is_end(std::uint32_t vertex) const { return is_first(vertex) || is_last(vertex); }

    // A road takes no more part.
    void leave_out(std::uint32_t road);
};

// Whether some vertex lies elsewhere than the first.
bool has_length(const Polyline& line);

// Roads of no length take no part.
Vertices vertices_of(const std::vector<Road>& roads);

// How far joining reaches. Ends reach join_tolerance. Vertices inside lines reach 5 cm at most,
// because a larger tolerance that mends ends would tie neighbouring lines together.
struct JoinReach {
    double end = 0.0;     // metres
    double inside = 0.0;  // metres

    // Edges that come back to their own node within this are the trace of joining, not a loop.
    double shortest_loop() const { return 2.0 * end; }
    // Of a pair of vertices.
    double between(bool some_end) const { return some_end ? end : inside; }
};
JoinReach reach_of(Length join_tolerance);

// Metres along the line between two vertices of one road, first <= last; more than `enough` ends
// the count.
double metres_between(const Vertices& vertices, std::uint32_t first, std::uint32_t last,
                      double enough);

}  // namespace farwater::routing
