// Candidate dump sites along the roads, so far apart that a list of them stays readable.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/units.h"
#include "routing/network.h"
#include "routing/sites/site_rules.h"

namespace farwater::routing {

// Junctions of three roads or more first, then points along edges and dead ends, each at least
// `spacing` (along driven roads) from the others and from the spots that are `taken`; together they
// leave no gap of twice the spacing but where the rules allow none. A point that is too steep moves
// to the nearest level one of its edge within `level_reach` that keeps the spacing, else it is left
// out. The same for any order of the roads. O(nodes x those within the spacing).
std::vector<RoadSpot> spaced_sites(const Network& network, const SiteRules& rules,
                                   std::span<const RoadSpot> taken, Length spacing,
                                   Length level_reach);

}  // namespace farwater::routing
