#include "routing/blocked_ways.h"

#include <algorithm>

namespace farwater::routing {
namespace {

constexpr double touches_only = 1e-3;  // metres: what only touches does not run over

}  // namespace

HoseSides hose_sides(const Network& network, RoadSpot site, RoadSpot house,
                     std::span<const EdgeIndex> closed) {
    const Edge& edge = at(network.edges, site.edge);
    if (site.along <= 0.0 || site.along >= in_metres(edge.length())) {
        return {};
    }
    if (house.edge == site.edge) {
        return {house.along <= site.along, house.along >= site.along};
    }
    const auto goes_on_at = [&](NodeIndex node) {
        return std::ranges::any_of(network.around(node), [&](const Incidence& incidence) {
            return incidence.edge != site.edge &&
                   std::ranges::find(closed, incidence.edge) != closed.end();
        });
    };
    return {goes_on_at(edge.from), goes_on_at(edge.to)};
}

HoseOnRoads::HoseOnRoads(const Network& network, const DumpSites& dump_sites,
                         std::uint32_t lane_case)
    : site_(dump_sites.spots[dump_sites.lane_cases.site[lane_case]]),
      sides_(dump_sites.lane_cases.sides[lane_case]),
      closed_(dump_sites.lane_cases.closed[lane_case]) {
    const double length = in_metres(at(network.edges, site_.edge).length());
    inside_ = site_.along > 0.0 && site_.along < length;
}

bool HoseOnRoads::bars(EdgeIndex edge) const {
    return std::ranges::find(closed_, edge) != closed_.end();
}

bool HoseOnRoads::bars(const Stretch& stretch) const {
    const auto [low, high] = std::minmax(stretch.from, stretch.to);
    if (high - low <= touches_only || !bars(stretch.edge)) {
        return false;
    }
    if (!inside_ || stretch.edge != site_.edge) {
        return true;
    }
    return (sides_.before && low < site_.along - touches_only) ||
           (sides_.behind && high > site_.along + touches_only);
}

bool HoseOnRoads::bars_any(const Way& way) const {
    return std::ranges::any_of(way, [&](const Stretch& stretch) { return bars(stretch); });
}

std::optional<std::uint32_t> lane_case_of(const DumpSites& dump_sites, std::size_t served,
                                          DumpSiteIndex dump_site) {
    const std::span<const HoseLay> lays = dump_sites.hose_lays[served];
    const auto lay = std::ranges::find(lays, dump_site, &HoseLay::dump_site);
    if (lay == lays.end()) {
        return std::nullopt;
    }
    const auto item =
        dump_sites.hose_lays.begin[served] + static_cast<std::size_t>(lay - lays.begin());
    return dump_sites.lane_cases.of_lay[item];
}

}  // namespace farwater::routing
