// Which vertices of the road lines are one junction.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/plane.h"
#include "analyzer/work/work.h"

namespace farwater::routing {

struct Junctions {
    std::vector<std::uint32_t> first_vertex;  // per road, and one more: vertices numbered through
    std::vector<std::uint32_t> node_of;       // per vertex; not_a_junction inside a line
    std::vector<Point> nodes;                 // the least point, by x then y, of those that joined

    static constexpr std::uint32_t not_a_junction = UINT32_MAX;
};

// The rules are those of build_network. Roads of no length have no junctions. Nodes are in spatial
// order. Stopped early: empty.
Junctions find_junctions(const std::vector<Road>& roads, Length tolerance, const Work& work);

// Edges that come back to their own node within this are the trace of joining, not a loop.
inline double shortest_loop(Length tolerance) { return 2.0 * in_metres(tolerance); }

}  // namespace farwater::routing
