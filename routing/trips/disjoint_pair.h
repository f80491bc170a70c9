// The best way out and back on which no stretch of road is driven twice.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <queue>
#include <span>
#include <utility>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"
#include "routing/trips/pair_graph.h"

namespace farwater::routing {

struct WayPair {
    std::int64_t out = 0;  // as the costs
    std::int64_t back = 0;
    Length length;                 // of both
    std::vector<EdgeIndex> edges;  // that they use, wholly or in part; in no order
};

// Pairs of edge-disjoint ways from places to a target that share a search from the target.
// Source: Suurballe, "Disjoint paths in a network", Networks 4 (1974), in the form of two searches
// with reduced costs, the second in the residual graph of the first; for undirected roads Bhandari,
// "Survivable Networks" (1999). Both from memory. Where all roads are open both ways the pair is
// the cheapest by `either`. With one-way roads the problem is hard (a cycle through two places of a
// directed graph), and one pair only is looked at: it is none when no share of it between the
// places where the two meet can be driven one out, one back.
class DisjointPairs {
public:
    explicit DisjointPairs(const Network& network);

    // Searches towards the target, as far as `most` of `either`: no way of a pair is longer. What
    // is given must outlive the questions below. O(what is reached x log).
    void aim(const PairCosts& costs, const SearchGraph& either_towards, RoadSpot target,
             std::int32_t most);

    // From a place to the target and back, neither on a closed edge; both together at most `total`
    // of `either`. None where there is none, and for a place or target inside a closed edge. Costs
    // what lies as near as the detour is long.
    std::optional<WayPair> from(RoadSpot place, std::span<const EdgeIndex> closed,
                                std::int64_t total);

    // Whether the last question had no answer only because of the directions of one-way roads; then
    // it may have one when more is closed.
    bool stopped_by_one_ways() const { return stopped_by_one_ways_; }

private:
    using Queued = std::pair<std::int64_t, std::uint32_t>;
    using Queue = std::priority_queue<Queued, std::vector<Queued>, std::greater<>>;

    // What one search found, per node.
    struct Costs {
        std::vector<std::int64_t> of;
        std::vector<std::uint32_t> reached;
    };
    // A way of the flow from one meeting of the two to the next.
    struct Share {
        std::uint32_t end = 0;
        std::int64_t out = 0;  // -1: may not be driven so
        std::int64_t back = 0;
        double metres = 0.0;
    };
    struct Step {
        std::uint32_t from = 0;
        PairArc arc;
    };

    std::int64_t ahead(std::uint32_t node) const;  // at least so much to the target; -1: too far
    std::int64_t reduction(std::uint32_t node) const;
    std::int64_t least_from_start();
    bool search_twice(std::int64_t total);
    bool run(std::int64_t most, Costs& costs);
    void go_on_from(std::uint32_t node, Costs& costs, Queue& queue);
    void send_along_way();
    void clear();
    std::vector<PairArc> flow_from(std::uint32_t node) const;
    Share share_from(const PairArc& first) const;
    void add(Share& share, const PairArc& arc) const;
    bool add_shares(std::uint32_t& node, WayPair& pair) const;
    std::optional<WayPair> shares() const;
    std::vector<EdgeIndex> edges_used() const;

    const Network& network_;
    PairGraph graph_;
    Search ahead_;
    Costs first_, again_;
    std::int64_t start_ahead_ = 0, first_cost_ = 0;
    bool second_ = false;
    bool stopped_by_one_ways_ = false;
    std::vector<Step> came_by_;
    std::vector<std::int8_t> flow_;  // per edge and part
    std::vector<std::uint32_t> used_;
    std::vector<PairArc> arcs_;
};

}  // namespace farwater::routing
