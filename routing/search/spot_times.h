// From one spot to many, or back, exact to the point on the road.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"
#include "routing/search/spot_ends.h"

namespace farwater::routing {

// The roads as one question sees them (profile, load, season), in one heading.
struct DrivenRoads {
    const Network& network;
    const EdgeCosts& costs;
    const SearchGraph& graph;  // of the same costs and heading
    Heading heading = Heading::away;
};

// Costs between one spot and a list of spots; kept between searches like Search itself.
class SpotTimes {
public:
    explicit SpotTimes(std::size_t spots) : cost_(spots, no_way) {}

    // Of everything at most `limit` away from `spot`, or that leads to it where heading is towards.
    // `ends` are those of `spots`. Precondition: clear, and `search` too; leaves `search` as it was
    // run.
    void measure(const DrivenRoads& roads, RoadSpot spot, std::span<const RoadSpot> spots,
                 const SpotEnds& ends, std::int32_t limit, Search& search);

    std::int32_t cost(std::uint32_t spot) const { return cost_[spot]; }
    std::span<const std::uint32_t> reached() const { return reached_; }
    void clear();

private:
    void offer(std::uint32_t spot, std::int32_t cost, std::int32_t limit);

    std::vector<std::int32_t> cost_;
    std::vector<std::uint32_t> reached_;
};

}  // namespace farwater::routing
