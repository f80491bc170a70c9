// The roads as a graph: junctions and the pieces of road between them. It holds for every season
// and vehicle; who may drive where, and how fast, is asked of the roads (speeds.h).
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/units.h"
#include "analyzer/parallel/work.h"
#include "routing/driving/grade.h"

namespace farwater::routing {

using EdgeIndex = Index<struct EdgeTag>;

// A piece of one road between two neighbouring junctions, in the direction that the road is drawn.
struct Edge {
    NodeIndex from, to;  // may be the same: a loop
    RoadIndex road;
    double begin = 0.0;  // metres from the start of the road's line
    double end = 0.0;

    Length length() const { return metres(end - begin); }
};

// One end of an edge, as its node sees it.
struct Incidence {
    NodeIndex other;
    EdgeIndex edge;
    bool forward = true;  // leaving the node this way drives the edge as drawn
};

struct Network {
    std::vector<Point> nodes;  // along a Hilbert curve, so that near nodes are near in memory
    std::vector<Edge> edges;   // by road, then along it
    std::vector<std::uint32_t> first_edge;       // per road, and one more
    std::vector<std::uint32_t> first_incidence;  // per node, and one more
    std::vector<Incidence>
        incidences;  // by node, then by other node and length; a loop stands twice
    std::vector<std::int32_t>
        component;  // per node: 0 = the largest connected part (by road length); -1 = no road
    Grades grades;  // per edge

    std::span<const Edge> edges_of(RoadIndex road) const {
        return std::span(edges).subspan(
            first_edge[road.position()],
            first_edge[road.position() + 1] - first_edge[road.position()]);
    }
    std::span<const Incidence> around(NodeIndex node) const {
        return std::span(incidences)
            .subspan(first_incidence[node.position()],
                     first_incidence[node.position() + 1] - first_incidence[node.position()]);
    }
};

// A place on the network: so many metres from the start of an edge.
struct RoadSpot {
    EdgeIndex edge;  // not valid: nowhere
    double along = 0.0;

    bool valid() const { return edge.valid(); }
};

// Where a spot lies, and the point so many metres from the start of a line (its end when beyond).
Point place_of(const District& district, const Network& network, RoadSpot spot);
Point point_along(const Polyline& line, double along);

// The spot so many metres from the start of an edge or of a road that has edges; at the end of the
// edge when it is within a millimetre of it, or beyond.
RoadSpot spot_on(const Network& network, EdgeIndex edge, double along);
RoadSpot spot_on(const Network& network, RoadIndex road, double along);

struct NetworkResult {
    Network network;
    std::vector<Problem> problems;  // those of network_problems.h
};

// Roads join where they share a vertex. A vertex is shared when
// - the ends of two lines are no farther apart than join_tolerance, or
// - an end is that near to a vertex inside a line, the nearest one there, or
// - vertices inside two lines of one level are no farther apart than 5 cm (or the tolerance, if
// less), and likewise where a line comes back to itself.
// With join_crossings they join as well where no vertex is shared (the exact rule: crossings.h):
// - where two lines cross, and
// - where an end lies within join_tolerance of the inside of a line, or another vertex within 5 cm,
// unless one of the two is a bridge or a tunnel or their levels differ; likewise a line and itself.
// Lines of no length have no edge, nor have duplicates of an earlier line (drawn_twice.h, which is
// to have gone before, so that it does not matter whose record has the edge). The same roads in
// another order give the same nodes, edges and components (edges numbered by the order of roads),
// but for which of duplicates comes first. O(vertices log vertices); 1.3 million roads take about
// two seconds. Stopped early: an empty network.
NetworkResult build_network(const District& district, const Work& work);

}  // namespace farwater::routing
