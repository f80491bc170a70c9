// Shortest paths with whole-number costs and a limit (Dijkstra 1959). The maps are kept between
// searches and only what was touched is cleared: a search costs what it reaches, not the size of
// the network.
#pragma once

#include <cstdint>
#include <span>
#include <type_traits>
#include <vector>

#include "routing/costs.h"
#include "routing/structures/bucket_queue.h"

namespace farwater::routing {

class Search {
public:
    explicit Search(std::size_t nodes) : cost_(nodes, no_way) {}

    // A node to start from, at this cost; nothing when a start is known there that costs no more,
    // or when cost is no_way.
    void start(std::uint32_t node, std::int32_t cost) {
        if (cost < cost_[node]) {
            set(node, cost);
            queue_.push({cost, node});
        }
    }

    // Runs from the starts given since the last run to everything at most `limit` away. Costs of
    // earlier runs stand until clear(): a later run goes only where it is better.
    // on_step(from, to) is called for each improvement, the last one for a node being the best.
    template <class OnStep>
    void run(const SearchGraph& graph, std::int32_t limit, OnStep on_step) {
        run_to(graph, limit, on_step, Everywhere{});
    }
    void run(const SearchGraph& graph, std::int32_t limit) {
        run(graph, limit, [](std::uint32_t, std::uint32_t) {});
    }

    // The same, but only through nodes of which goes_on(label) is true; it is asked once a node,
    // when the cost of the node is known, the nearest first.
    template <class GoesOn>
    void run_while(const SearchGraph& graph, std::int32_t limit, GoesOn goes_on) {
        run_to(graph, limit, [](std::uint32_t, std::uint32_t) {}, goes_on);
    }

    // no_way where nothing came. A start costs what was given, also beyond the limit.
    std::int32_t cost(std::uint32_t node) const { return cost_[node]; }

    // Every node with a cost, once each, in the order first touched.
    std::span<const std::uint32_t> reached() const { return reached_; }

    void clear() {
        for (const std::uint32_t node : reached_) {
            cost_[node] = no_way;
        }
        reached_.clear();
        queue_.clear();
    }

private:
    struct Everywhere {
        bool operator()(Label) const { return true; }
    };

    template <class OnStep, class GoesOn>
    void run_to(const SearchGraph& graph, std::int32_t limit, OnStep on_step, GoesOn goes_on) {
        while (!queue_.empty()) {
            const Label label = queue_.pop_least();
            if (label.cost > limit || label.cost > cost_[label.node]) {
                continue;  // too far, or a better way was found since it was queued
            }
            if (!goes_on(label)) {
                continue;
            }
            // Nothing gets better over the end of a spur, so it need not be queued.
            go_on<std::is_same_v<GoesOn, Everywhere>>(graph, label, limit, on_step);
        }
    }

    template <bool passes_ends, class OnStep>
    void go_on(const SearchGraph& graph, Label label, std::int32_t limit, OnStep& on_step) {
        for (const Arc& arc : graph.from(label.node)) {
            if (arc.cost <= limit - label.cost && label.cost + arc.cost < cost_[arc.to]) {
                set(arc.to, label.cost + arc.cost);
                if (!passes_ends || arc.ends == 0) {
                    queue_.push({label.cost + arc.cost, arc.to});
                }
                on_step(label.node, arc.to);
            }
        }
    }

    void set(std::uint32_t node, std::int32_t cost) {
        if (cost_[node] == no_way) {
            reached_.push_back(node);
        }
        cost_[node] = cost;
    }

    std::vector<std::int32_t> cost_;
    std::vector<std::uint32_t> reached_;
    BucketQueue queue_;
};

}  // namespace farwater::routing
