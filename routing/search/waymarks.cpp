#include "routing/search/waymarks.h"

#include <algorithm>
#include <cmath>

namespace farwater::routing {

std::vector<WayOn> ways_from(const Network& network, RoadSpot spot) {
    const Edge& edge = at(network.edges, spot.edge);
    const double length = in_metres(edge.length());
    if (spot.along > 0.0 && spot.along < length) {
        return {{spot.edge, edge.from, false, spot.along, 0.0, spot.along},
                {spot.edge, edge.to, true, spot.along, 0.0, length - spot.along}};
    }
    std::vector<WayOn> ways;
    for (const Incidence& incidence : network.around(spot.along > 0.0 ? edge.to : edge.from)) {
        ways.push_back(onward(network, {}, incidence));
    }
    return ways;
}

WayOn onward(const Network& network, const WayOn& way, const Incidence& next) {
    const double length = in_metres(at(network.edges, next.edge).length());
    return {next.edge,  next.other,         next.forward, next.forward ? 0.0 : length,
            way.length, way.length + length};
}

Waymarks::Waymarks(const Network& network, std::span<const RoadSpot> spots) : network_(&network) {
    for (const RoadSpot& spot : spots) {
        if (!spot.valid()) {
            continue;
        }
        const Edge& edge = farwater::at(network.edges, spot.edge);
        if (spot.along > 0.0 && spot.along < in_metres(edge.length())) {
            inside_.push_back(spot);
        } else {
            junctions_.push_back(spot.along > 0.0 ? edge.to : edge.from);
        }
    }
    std::ranges::sort(inside_, {}, &RoadSpot::edge);
    std::ranges::sort(junctions_);
}

bool Waymarks::on(const WayOn& way, double farthest) const {
    if (way.length <= farthest && std::ranges::binary_search(junctions_, way.to)) {
        return true;
    }
    const auto here = std::ranges::equal_range(inside_, way.edge, {}, &RoadSpot::edge);
    return std::ranges::any_of(here, [&](const RoadSpot& mark) {
        const double ahead = way.as_drawn ? mark.along - way.entered : way.entered - mark.along;
        return ahead >= 0.0 && way.before + ahead <= farthest;
    });
}

bool Waymarks::at(RoadSpot spot) const {
    const Edge& edge = farwater::at(network_->edges, spot.edge);
    if (spot.along <= 0.0 || spot.along >= in_metres(edge.length())) {
        return std::ranges::binary_search(junctions_, spot.along > 0.0 ? edge.to : edge.from);
    }
    const auto here = std::ranges::equal_range(inside_, spot.edge, {}, &RoadSpot::edge);
    return std::ranges::any_of(
        here, [&](const RoadSpot& mark) { return std::abs(mark.along - spot.along) <= 1.0; });
}

}  // namespace farwater::routing
