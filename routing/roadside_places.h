// Where a cistern could stand: at junctions, and by the road in front of public parcels.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/network.h"

namespace farwater::routing {

// In front of each public parcel, in their order, the point nearest to its house or inside point on
// a road that some loaded tanker may use in some season, if it is at most access_reach_ft away;
// then every node where three or more ends of such roads meet. Driveways, bridges and tunnels are
// no such roads. O(nodes + public parcels); on all threads. Stopped early: not complete.
std::vector<RoadsidePlace> roadside_places(const District& district, const Network& network,
                                           std::span<const Profile> profiles, const Work& work);

}  // namespace farwater::routing
