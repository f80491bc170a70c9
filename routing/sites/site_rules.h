// On which roads, and where on them, a dump site may be.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "routing/network.h"
#include "routing/sites/level_stretches.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {

class SiteRules {
public:
    SiteRules(const District& district, const Network& network, std::span<const Profile> profiles);

    // Per edge: 1 where some loaded tanker may go in some season.
    const std::vector<std::uint8_t>& driven() const { return driven_; }

    // Some loaded tanker may go there in every season.
    bool driven_all_year(EdgeIndex edge) const { return at(driven_all_year_, edge) != 0; }

    // The place of a site at a junction: on the first edge that has sites and is level there; not
    // valid where none is. Precondition: none.
    RoadSpot spot_at(NodeIndex node) const { return at(spots_, node); }

    // Driven, and neither bridge nor tunnel nor crossed by a railway.
    bool has_sites(EdgeIndex edge) const { return at(sites_, edge) != 0; }
    // Some edge here has sites and is level beside the junction, and no bridge, tunnel or rail
    // crossing begins here.
    bool has_site(NodeIndex node) const;
    // Farther than 100 ft from every road with a rail crossing (common practice, no source).
    bool clear_of_rail(RoadSpot spot) const;
    const LevelStretches& level() const { return level_; }

private:
    RoadSpot first_level_spot(NodeIndex node) const;

    const District& district_;
    const Network& network_;
    std::vector<std::uint8_t> driven_;
    std::vector<std::uint8_t> driven_all_year_;
    std::vector<std::uint8_t> sites_;
    bool any_rail_ = false;
    RoadFinder rail_;
    LevelStretches level_;
    std::vector<RoadSpot> spots_;  // per junction, for every house near it asks
};

}  // namespace farwater::routing
