// The ways that hose takes along the roads from one house.
#pragma once

#include <cstdint>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"

namespace farwater::routing {

// From where hose comes to the house: by the end of the access point's edge or its start, and at
// the first junction of three or more edges on its way by this one; not valid where it begins
// before that or there.
struct HouseSide {
    bool from_end = false;
    EdgeIndex arm;
    friend bool operator==(const HouseSide&, const HouseSide&) = default;
};

// Of one house at a time; working memory for one thread, 4 bytes a node beside the search's. All
// that is given must outlive it. Sites are asked for within the reach only.
class HosePaths {
public:
    // `lengths` in millimetres, of every edge, and the graph of them away from a place.
    HosePaths(const Network& network, const EdgeCosts& lengths, const SearchGraph& graph);

    // Precondition: clear. `reach` in millimetres.
    void begin(RoadSpot house, std::int32_t reach);
    const Search& search() const { return search_; }
    void clear() { search_.clear(); }

    // The edges that the hose to a site lies along, and the house's own; ascending, each once.
    std::vector<EdgeIndex> edges_to(RoadSpot site) const;

    // The side of the house that the hose from a site comes from.
    HouseSide side_of(RoadSpot site) const;

private:
    bool is_inside(RoadSpot site) const;  // its edge, not at an end
    NodeIndex end_towards_house(RoadSpot site) const;
    EdgeIndex edge_between(NodeIndex before, NodeIndex node) const;

    const Network& network_;
    const EdgeCosts& lengths_;
    const SearchGraph& graph_;
    RoadSpot house_;
    Search search_;
    std::vector<std::uint32_t> before_;  // the junction before, of those reached; itself at a start
};

}  // namespace farwater::routing
