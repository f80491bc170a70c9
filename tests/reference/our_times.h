// Times by our own search, for the samples that reference libraries are asked about.
#pragma once

#include <span>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/spot_times.h"
#include "tests/reference/street_graph.h"

namespace farwater::reference {

// Every arc as a one-way edge of a network without places; the nodes keep their numbers.
struct Streets {
    explicit Streets(const StreetGraph& graph);
    routing::Network network;
    routing::EdgeCosts costs;
};

// From each source with arcs as they are driven (away), or to each source (towards).
Times our_times(const Streets& streets, routing::Heading heading, const Sample& sample,
                std::int32_t limit);

// Between spots on edges, by the same call as round trips. `sources` and `targets` are spots.
Times our_spot_times(const routing::DrivenRoads& roads, std::span<const routing::RoadSpot> sources,
                     std::span<const routing::RoadSpot> targets, std::int32_t limit);

// The question of our_spot_times as a plain graph: a node for each spot, which has arcs to or from
// the ends of its edge only, and one between spots of an edge. Arcs lead from sources to targets
// whatever the heading is.
struct SpotQuestion {
    StreetGraph graph;
    Sample sample;
};
SpotQuestion spot_question(const routing::DrivenRoads& roads,
                           std::span<const routing::RoadSpot> sources,
                           std::span<const routing::RoadSpot> targets);

}  // namespace farwater::reference
