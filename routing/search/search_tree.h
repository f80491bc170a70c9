// The ways of a search as a tree, numbered so that all that is reached over an edge is a range.
#pragma once

#include <cstdint>
#include <vector>

#include "routing/network.h"
#include "routing/search/search.h"
#include "routing/search/spot_times.h"

namespace farwater::routing {

class SearchTree {
public:
    // 4 bytes a node, and 24 for each that is reached.
    explicit SearchTree(std::size_t nodes) : place_(nodes, 0) {}

    // Of a search from `spot`, or of all that leads to it, as it was run; until then, and once the
    // search is another one, nothing may be asked. Of equal ways the first as the junction has its
    // edges. O(what was reached).
    void grow(const DrivenRoads& roads, RoadSpot spot, const Search& search);

    // Numbers of junctions, from `begin` to before `end`.
    struct Branch {
        std::uint32_t begin = 0, end = 0;
        bool holds(std::uint32_t number) const { return begin <= number && number < end; }
    };

    // All of these of junctions that were reached.
    std::uint32_t number(std::uint32_t node) const { return branch_[place_[node]].begin; }
    // A junction with all that is reached over it.
    Branch branch(std::uint32_t node) const { return branch_[place_[node]]; }
    // The edge that a junction is reached by; not valid where the way begins.
    EdgeIndex edge_to(std::uint32_t node) const { return edge_[place_[node]]; }
    // Whether a way of the tree leads from the spot there: not so for a step that costs nothing.
    bool has_way(std::uint32_t node) const { return number(node) < with_way_; }

private:
    static constexpr std::uint32_t none = UINT32_MAX;

    void find_steps(const DrivenRoads& roads, const EndCosts& costs, const Edge& start,
                    const Search& search);
    void number_from(std::uint32_t root);

    std::vector<std::uint32_t> place_;  // per node: in the order reached
    // Per node reached:
    std::vector<EdgeIndex> edge_;
    std::vector<Branch> branch_;
    std::vector<std::uint32_t> above_, first_below_, next_beside_;
    std::vector<std::uint32_t> roots_, strays_;
    std::uint32_t next_number_ = 0, with_way_ = 0;
};

}  // namespace farwater::routing
