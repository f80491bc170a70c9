#include "routing/trips/disjoint_pair.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace farwater::routing {
namespace {

constexpr std::int64_t far_off = std::numeric_limits<std::int64_t>::max() / 4;

void forget(std::vector<std::int64_t>& costs, std::vector<std::uint32_t>& reached) {
    for (const std::uint32_t node : reached) {
        costs[node] = far_off;
    }
    reached.clear();
}

}  // namespace

DisjointPairs::DisjointPairs(const Network& network)
    : network_(network),
      graph_(network),
      ahead_(network.nodes.size()),
      first_{std::vector<std::int64_t>(graph_.nodes(), far_off), {}},
      again_{std::vector<std::int64_t>(graph_.nodes(), far_off), {}},
      came_by_(graph_.nodes()),
      flow_(graph_.ids(), 0) {}

void DisjointPairs::aim(const PairCosts& costs, const SearchGraph& either_towards, RoadSpot target,
                        std::int32_t most) {
    graph_.aim(costs, target);
    ahead_.clear();
    for (const PairArc& part : graph_.last_parts()) {
        ahead_.start(part.to, part.cost);
    }
    if (graph_.is_junction(graph_.goal())) {
        ahead_.start(graph_.goal(), 0);
    }
    ahead_.run(either_towards, most);
}

std::int64_t DisjointPairs::ahead(std::uint32_t node) const {
    if (node == graph_.goal()) {
        return 0;
    }
    if (!graph_.is_junction(node)) {
        return start_ahead_;
    }
    const std::int32_t cost = ahead_.cost(node);
    return cost == no_way ? -1 : cost;
}

// What the first search found, no more than to the target: keeps the costs of the second from
// falling below 0.
std::int64_t DisjointPairs::reduction(std::uint32_t node) const {
    return second_ ? std::min(first_.of[node], first_cost_) : 0;
}

// Dijkstra with reduced costs in what the flow leaves; false when the goal is farther than `most`.
bool DisjointPairs::run(std::int64_t most, Costs& costs) {
    Queue queue;
    costs.of[graph_.start()] = 0;
    costs.reached.push_back(graph_.start());
    queue.emplace(0, graph_.start());
    while (!queue.empty() && queue.top().first <= most) {
        const auto [cost, node] = queue.top();
        queue.pop();
        if (node == graph_.goal()) {
            return true;
        }
        if (cost == costs.of[node]) {
            go_on_from(node, costs, queue);
        }
    }
    return false;
}

void DisjointPairs::go_on_from(std::uint32_t node, Costs& costs, Queue& queue) {
    const std::int64_t base = costs.of[node] - ahead(node) + reduction(node);
    graph_.arcs_from(node, arcs_);
    for (const PairArc& arc : arcs_) {
        const std::int8_t sent = flow_[arc.id];
        const std::int64_t to_go = ahead(arc.to);
        if ((sent == 0 && arc.cost == no_way) || sent == arc.heading || to_go < 0) {
            continue;
        }
        const std::int64_t step =
            sent == 0 ? arc.cost : -std::int64_t{graph_.cost_of(arc.id, sent > 0)};
        const std::int64_t sum = base + step + to_go - reduction(arc.to);
        if (sum < costs.of[arc.to]) {
            if (costs.of[arc.to] == far_off) {
                costs.reached.push_back(arc.to);
            }
            costs.of[arc.to] = sum;
            came_by_[arc.to] = {node, arc};
            queue.emplace(sum, arc.to);
        }
    }
}

void DisjointPairs::send_along_way() {
    for (std::uint32_t node = graph_.goal(); node != graph_.start(); node = came_by_[node].from) {
        const PairArc& arc = came_by_[node].arc;
        flow_[arc.id] = static_cast<std::int8_t>(flow_[arc.id] + arc.heading);
        used_.push_back(arc.id);
    }
}

void DisjointPairs::clear() {
    forget(first_.of, first_.reached);
    forget(again_.of, again_.reached);
    for (const std::uint32_t id : used_) {
        flow_[id] = 0;
    }
    used_.clear();
    second_ = false;
}

void DisjointPairs::add(Share& share, const PairArc& arc) const {
    const auto [from, to] = graph_.driven(arc);
    const std::int32_t out = cost_along(network_, graph_.costs().out, from, to);
    const std::int32_t back = cost_along(network_, graph_.costs().back, to, from);
    share.out = share.out < 0 || out == no_way ? -1 : share.out + out;
    share.back = share.back < 0 || back == no_way ? -1 : share.back + back;
    share.metres += std::abs(to.along - from.along);
}

std::vector<PairArc> DisjointPairs::flow_from(std::uint32_t node) const {
    std::vector<PairArc> arcs;
    if (node != graph_.goal()) {
        graph_.arcs_from(node, arcs);
        std::erase_if(arcs, [&](const PairArc& arc) { return flow_[arc.id] != arc.heading; });
    }
    return arcs;
}

// Along the flow to where the two ways meet next, or to the target.
DisjointPairs::Share DisjointPairs::share_from(const PairArc& first) const {
    Share share;
    PairArc arc = first;
    for (std::size_t steps = 0; steps <= used_.size(); ++steps) {
        add(share, arc);
        share.end = arc.to;
        const std::vector<PairArc> onward = flow_from(arc.to);
        if (onward.size() != 1) {
            break;
        }
        arc = onward.front();
    }
    return share;
}

// What lies between a meeting of the two ways and the next: the cheaper one goes out, where both
// may. False where none of both may.
bool DisjointPairs::add_shares(std::uint32_t& node, WayPair& pair) const {
    const std::vector<PairArc> arcs = flow_from(node);
    if (arcs.size() != 2) {
        return false;
    }
    const Share one = share_from(arcs[0]);
    const Share other = share_from(arcs[1]);
    const auto driven = [](const Share& out, const Share& back) {
        return out.out < 0 || back.back < 0 ? far_off : out.out + back.back;
    };
    const bool swapped = driven(other, one) < driven(one, other);
    const Share& out = swapped ? other : one;
    const Share& back = swapped ? one : other;
    pair.out += out.out;
    pair.back += back.back;
    pair.length += metres(out.metres + back.metres);
    node = out.end;
    return one.end == other.end && driven(out, back) < far_off;
}

// The two ways meet at the same places in the same order.
std::optional<WayPair> DisjointPairs::shares() const {
    WayPair pair;
    std::uint32_t node = graph_.start();
    for (std::size_t meetings = 0; node != graph_.goal(); ++meetings) {
        if (meetings > used_.size() || !add_shares(node, pair)) {
            return std::nullopt;
        }
    }
    pair.edges = edges_used();
    return pair;
}

std::vector<EdgeIndex> DisjointPairs::edges_used() const {
    std::vector<EdgeIndex> edges;
    for (const std::uint32_t id : used_) {
        if (flow_[id] != 0) {
            edges.push_back(graph_.edge_of(id));
        }
    }
    return edges;
}

// To the target; far_off where it is out of reach.
std::int64_t DisjointPairs::least_from_start() {
    if (graph_.is_junction(graph_.start())) {
        const std::int64_t least = ahead(graph_.start());
        return least < 0 ? far_off : least;
    }
    std::int64_t least = far_off;
    graph_.arcs_from(graph_.start(), arcs_);
    for (const PairArc& arc : arcs_) {
        const std::int64_t on = ahead(arc.to);
        if (arc.cost != no_way && on >= 0) {
            least = std::min(least, arc.cost + on);
        }
    }
    return least;
}

bool DisjointPairs::search_twice(std::int64_t total) {
    start_ahead_ = least_from_start();
    if (start_ahead_ == far_off || !run(total / 2 - start_ahead_, first_)) {
        return false;
    }
    first_cost_ = first_.of[graph_.goal()];
    send_along_way();
    second_ = true;
    if (!run(total - 2 * (start_ahead_ + first_cost_), again_)) {
        return false;
    }
    send_along_way();
    return true;
}

std::optional<WayPair> DisjointPairs::from(RoadSpot place, std::span<const EdgeIndex> closed,
                                           std::int64_t total) {
    graph_.start_from(place, closed);
    stopped_by_one_ways_ = false;
    if (graph_.shut()) {
        return std::nullopt;
    }
    if (graph_.at_the_target()) {
        return WayPair{};
    }
    std::optional<WayPair> pair;
    if (search_twice(total)) {
        pair = shares();
        stopped_by_one_ways_ = !pair;
    }
    clear();
    return pair;
}

}  // namespace farwater::routing
