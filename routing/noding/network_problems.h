// What the building of the network finds wrong with the roads.
#pragma once

#include <vector>

#include "analyzer/district/problem.h"
#include "analyzer/district/road.h"
#include "routing/network.h"
#include "routing/noding/junctions.h"

namespace farwater::routing {

// Kind by kind, each by road: road_zero_length, road_crossing_joined, road_overlap,
// road_edge_of_data. O(edges).
std::vector<Problem> network_problems(const std::vector<Road>& roads, const Junctions& junctions,
                                      const Network& network);

// A stretch that two edges share: from the same node to the same node, and nowhere farther apart
// than 10 cm where it is looked at (at each quarter of the length). Roads of different level share
// none. O(edges).
struct Overlap {
    EdgeIndex one, other;  // one < other
    friend constexpr auto operator<=>(const Overlap&, const Overlap&) = default;
};
std::vector<Overlap> find_overlaps(const std::vector<Road>& roads, const Network& network);

}  // namespace farwater::routing
