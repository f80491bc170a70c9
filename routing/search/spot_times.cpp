#include "routing/search/spot_times.h"

namespace farwater::routing {

void SpotTimes::measure(const DrivenRoads& roads, RoadSpot spot, std::span<const RoadSpot> spots,
                        const SpotEnds& ends, std::int32_t limit, Search& search) {
    const bool away = roads.heading == Heading::away;
    const Edge& edge = at(roads.network.edges, spot.edge);
    const EndCosts starts = end_costs(roads.network, roads.costs, spot, roads.heading);
    search.start(static_cast<std::uint32_t>(edge.from.position()), starts.from_end);
    search.start(static_cast<std::uint32_t>(edge.to.position()), starts.to_end);
    search.run(roads.graph, limit);
    for (const std::uint32_t node : search.reached()) {
        for (const SpotEnd& end : ends.around(NodeIndex(node))) {
            offer(end.spot, plus(search.cost(node), away ? end.to_spot : end.from_spot), limit);
        }
    }
    for (const SpotEnd& end : ends.around(edge.from)) {
        const RoadSpot other = spots[end.spot];
        if (other.edge == spot.edge) {
            offer(end.spot,
                  away ? cost_along(roads.network, roads.costs, spot, other)
                       : cost_along(roads.network, roads.costs, other, spot),
                  limit);
        }
    }
}

void SpotTimes::offer(std::uint32_t spot, std::int32_t cost, std::int32_t limit) {
    if (cost > limit || cost >= cost_[spot]) {
        return;
    }
    if (cost_[spot] == no_way) {
        reached_.push_back(spot);
    }
    cost_[spot] = cost;
}

void SpotTimes::clear() {
    for (const std::uint32_t spot : reached_) {
        cost_[spot] = no_way;
    }
    reached_.clear();
}

}  // namespace farwater::routing
