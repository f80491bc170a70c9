// The roads as a pair of ways sees them: from a place to a target, with parts of edges at both.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"

namespace farwater::routing {

// What it costs to go out (empty) and to come back (loaded), and what a road costs one of the two
// ways of a pair, where it is not known yet which of them will be the way back: both together, or
// twice the one that the road allows. So the cost of a pair is that of driving it in both
// directions, as far as one can.
struct PairCosts {
    const EdgeCosts& out;
    const EdgeCosts& back;
    EdgeCosts either;  // in the direction of going out
};
PairCosts pair_costs(const Network& network, const EdgeCosts& out, const EdgeCosts& back);

// An edge in one direction, or a part of one from the place or to the target.
struct PairArc {
    std::uint32_t to = 0;
    std::uint32_t id = 0;        // of the edge; parts are numbered on
    std::int8_t heading = 1;     // as drawn, or -1
    std::int32_t cost = no_way;  // of `either`
};

// Nodes are junctions, and after them the place and the target where they are inside an edge; such
// an edge is gone over in parts only.
class PairGraph {
public:
    explicit PairGraph(const Network& network) : network_(network) {}

    // What is given must outlive the questions.
    void aim(const PairCosts& costs, RoadSpot target);
    void start_from(RoadSpot place, std::span<const EdgeIndex> closed);

    std::size_t nodes() const { return network_.nodes.size() + 2; }
    std::size_t ids() const { return network_.edges.size() + 5; }
    std::uint32_t start() const { return terminal(place_, place_node()); }
    std::uint32_t goal() const { return terminal(target_, place_node() + 1); }
    bool is_junction(std::uint32_t node) const { return node < place_node(); }
    // Whether the place or the target is inside a closed edge.
    bool shut() const;
    bool at_the_target() const;

    // All that leave a node for the target, into `arcs`; none leaves the target.
    void arcs_from(std::uint32_t node, std::vector<PairArc>& arcs) const;
    // The last parts before a target inside an edge, by the junctions where they begin (`to`).
    std::vector<PairArc> last_parts() const;

    // The stretch of road that an arc is.
    struct Driven {
        RoadSpot from, to;
    };
    Driven driven(const PairArc& arc) const;
    EdgeIndex edge_of(std::uint32_t id) const;
    // Of `either`, over a whole edge.
    std::int32_t cost_of(std::uint32_t id, bool as_drawn) const {
        return costs_->either.of(EdgeIndex(id), as_drawn);
    }
    const PairCosts& costs() const { return *costs_; }

private:
    enum class Part : std::uint8_t { to_from, to_to, from_from, from_to, straight };

    std::uint32_t place_node() const { return static_cast<std::uint32_t>(network_.nodes.size()); }
    std::uint32_t id_of(Part part) const {
        return static_cast<std::uint32_t>(network_.edges.size()) + static_cast<std::uint32_t>(part);
    }
    bool inside(RoadSpot spot) const;
    bool on_one_edge() const;
    std::uint32_t terminal(RoadSpot spot, std::uint32_t inside) const;
    bool closed_edge(EdgeIndex edge) const;
    RoadSpot end_of(RoadSpot spot, bool to_end) const;
    PairArc part(Part which, RoadSpot from, RoadSpot to, std::uint32_t end) const;
    void add_first_parts(std::vector<PairArc>& arcs) const;
    void add_last_parts(std::uint32_t node, std::vector<PairArc>& arcs) const;

    const Network& network_;
    const PairCosts* costs_ = nullptr;
    RoadSpot place_, target_;
    std::span<const EdgeIndex> closed_;
};

}  // namespace farwater::routing
