// Which places tankers could drive through, before any season is chosen.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "routing/access.h"
#include "routing/network.h"
#include "routing/search/waymarks.h"
#include "routing/sites/lanes.h"

namespace farwater::routing {

// A place where dump sites are laid out from.
struct SitePlace {
    RoadSpot spot;
    Point place;
    std::optional<std::uint32_t> officers_place;  // index; such a place may lie off the road
};

// Where tankers turn: the places of the layer, and the officer's places and sources that say so.
std::vector<RoadSpot> turnarounds(const District& district, const Access& access);
// Where tankers come from to a dump site.
std::vector<RoadSpot> sources_and_stations(const Access& access);
// The lane class that the officer gives his place; none where he says nothing of it.
std::optional<LaneClass> said_lane(const District& district,
                                   std::optional<std::uint32_t> officers_place);

// By the roads that all loaded tankers can use in every season (lanes.h).
class DriveThrough {
public:
    // All that is given must outlive it.
    DriveThrough(const District& district, const Network& network, const Access& access,
                 std::span<const Profile> profiles);

    // While tankers do not pass the closed edges.
    bool at_spot(RoadSpot spot, std::span<const EdgeIndex> closed) const;
    bool at_site(const SitePlace& site, std::span<const EdgeIndex> closed) const;

private:
    const District& district_;
    Lanes lanes_;
    Waymarks origins_;
};

}  // namespace farwater::routing
