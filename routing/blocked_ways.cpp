#include "routing/blocked_ways.h"

#include <algorithm>

namespace farwater::routing {
namespace {

constexpr double touches_only = 1e-3;  // metres: what only touches does not run over

// On which sides of a site inside a closed edge the hose lies, towards the edge's start and its
// end.
struct HoseSides {
    bool before = false;
    bool behind = false;
};

HoseSides hose_sides(const Network& network, RoadSpot site, RoadSpot house,
                     std::span<const EdgeIndex> closed) {
    if (house.edge == site.edge) {
        return {house.along <= site.along, house.along >= site.along};
    }
    const Edge& edge = at(network.edges, site.edge);
    const auto goes_on_at = [&](NodeIndex node) {
        return std::ranges::any_of(network.around(node), [&](const Incidence& incidence) {
            return incidence.edge != site.edge &&
                   std::ranges::find(closed, incidence.edge) != closed.end();
        });
    };
    return {goes_on_at(edge.from), goes_on_at(edge.to)};
}

}  // namespace

bool runs_over_hose(const Network& network, const Way& way, RoadSpot site, RoadSpot house,
                    std::span<const EdgeIndex> closed) {
    const double length = in_metres(at(network.edges, site.edge).length());
    const bool inside = site.along > 0.0 && site.along < length;
    return std::ranges::any_of(way, [&](const Stretch& stretch) {
        const auto [low, high] = std::minmax(stretch.from, stretch.to);
        if (high - low <= touches_only || std::ranges::find(closed, stretch.edge) == closed.end()) {
            return false;
        }
        if (!inside || stretch.edge != site.edge) {
            return true;
        }
        const HoseSides hose = hose_sides(network, site, house, closed);
        return (hose.before && low < site.along - touches_only) ||
               (hose.behind && high > site.along + touches_only);
    });
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
