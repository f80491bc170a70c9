#include "routing/sites/site_rules.h"

#include <algorithm>

#include "routing/driving/road_use.h"

namespace farwater::routing {
namespace {

constexpr Length rail_distance = feet(100);

bool no_place_to_stop(const Road& road) { return road.bridge || road.tunnel || road.rail_crossing; }

}  // namespace

SiteRules::SiteRules(const District& district, const Network& network,
                     std::span<const Profile> profiles)
    : district_(district),
      network_(network),
      driven_(edges_used_by(network, loaded_use_in_some_season(district, profiles),
                            haulers(profiles), Which::some)),
      driven_all_year_(edges_used_by(network, loaded_use_in_every_season(district, profiles),
                                     haulers(profiles), Which::some)),
      sites_(driven_),
      any_rail_(
          std::ranges::any_of(district.roads, [](const Road& road) { return road.rail_crossing; })),
      rail_(district.roads,
            [&district](std::uint32_t road) { return district.roads[road].rail_crossing; }),
      level_(district.assumptions, network) {
    for (std::size_t e = 0; e < sites_.size(); ++e) {
        if (no_place_to_stop(at(district.roads, network.edges[e].road))) {
            sites_[e] = 0;
        }
    }
    spots_.reserve(network.nodes.size());
    for (std::uint32_t node = 0; node < network.nodes.size(); ++node) {
        spots_.push_back(first_level_spot(NodeIndex(node)));
    }
}

RoadSpot SiteRules::first_level_spot(NodeIndex node) const {
    for (const Incidence& incidence : network_.around(node)) {
        const double length = in_metres(at(network_.edges, incidence.edge).length());
        const RoadSpot spot{incidence.edge, incidence.forward ? 0.0 : length};
        if (has_sites(incidence.edge) && level_.level(spot)) {
            return spot;
        }
    }
    return {};
}

bool SiteRules::has_site(NodeIndex node) const {
    return spot_at(node).valid() &&
           std::ranges::none_of(network_.around(node), [&](const Incidence& incidence) {
               return no_place_to_stop(
                   at(district_.roads, at(network_.edges, incidence.edge).road));
           });
}

bool SiteRules::clear_of_rail(RoadSpot spot) const {
    return !any_rail_ ||
           !rail_.any_within(place_of(district_, network_, spot), in_metres(rail_distance),
                             [](std::uint32_t) { return true; });
}

}  // namespace farwater::routing
