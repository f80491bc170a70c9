// Ways that would lead past the burning house or over the hose.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "routing/dump_sites.h"
#include "routing/fastest_ways.h"
#include "routing/network.h"

namespace farwater::routing {

// Whether a way from or to the dump site `site` runs over one of the edges that are closed for a
// hose lay (LaneCases): those under the hose and that of the house's access point. On the site's
// own edge only the side where the hose lies counts, on any other edge every stretch. Where the
// hose may lie on both sides, both count. O(way x closed).
bool runs_over_hose(const Network& network, const Way& way, RoadSpot site, RoadSpot house,
                    std::span<const EdgeIndex> closed);

// The case of the hose lay by which a parcel or target is served from a dump site; none where there
// is no such lay.
std::optional<std::uint32_t> lane_case_of(const DumpSites& dump_sites, std::size_t served,
                                          DumpSiteIndex dump_site);

}  // namespace farwater::routing
