#include "routing/search/search_tree.h"

#include <span>

namespace farwater::routing {
namespace {

std::uint32_t numbered(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

}  // namespace

void SearchTree::grow(const DrivenRoads& roads, RoadSpot spot, const Search& search) {
    const std::span<const std::uint32_t> reached = search.reached();
    for (std::uint32_t i = 0; i < reached.size(); ++i) {
        place_[reached[i]] = i;
    }
    edge_.assign(reached.size(), EdgeIndex());
    branch_.assign(reached.size(), Branch());
    above_.assign(reached.size(), none);
    first_below_.assign(reached.size(), none);
    next_beside_.assign(reached.size(), none);
    roots_.clear();
    strays_.clear();
    find_steps(roads, end_costs(roads.network, roads.costs, spot, roads.heading),
               at(roads.network.edges, spot.edge), search);
    next_number_ = 0;
    for (const std::uint32_t root : roots_) {
        number_from(root);
    }
    with_way_ = next_number_;
    for (const std::uint32_t stray : strays_) {
        number_from(stray);
    }
}

void SearchTree::find_steps(const DrivenRoads& roads, const EndCosts& costs, const Edge& start,
                            const Search& search) {
    const std::span<const std::uint32_t> reached = search.reached();
    for (std::uint32_t i = 0; i < reached.size(); ++i) {
        const NodeIndex node(reached[i]);
        const std::int32_t here = search.cost(reached[i]);
        if ((start.from == node && costs.from_end == here) ||
            (start.to == node && costs.to_end == here)) {
            roots_.push_back(i);
            continue;
        }
        for (const Incidence& incidence : roads.network.around(node)) {
            const std::int32_t before = search.cost(numbered(incidence.other));
            const bool as_drawn = incidence.forward != (roads.heading == Heading::away);
            if (before < here && plus(before, roads.costs.of(incidence.edge, as_drawn)) == here) {
                edge_[i] = incidence.edge;
                above_[i] = place_[numbered(incidence.other)];
                break;
            }
        }
        if (above_[i] == none) {
            strays_.push_back(i);
        } else {
            next_beside_[i] = first_below_[above_[i]];
            first_below_[above_[i]] = i;
        }
    }
}

// Down to the first below, beside, or up and on, without a stack.
void SearchTree::number_from(std::uint32_t root) {
    std::uint32_t here = root;
    branch_[here].begin = next_number_++;
    while (true) {
        if (first_below_[here] != none) {
            const std::uint32_t below = first_below_[here];
            first_below_[here] = next_beside_[below];
            here = below;
            branch_[here].begin = next_number_++;
            continue;
        }
        branch_[here].end = next_number_;
        if (here == root) {
            return;
        }
        here = above_[here];
    }
}

}  // namespace farwater::routing
