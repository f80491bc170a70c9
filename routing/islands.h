// Parts of the roads that are not connected to the main network.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/network.h"

namespace farwater::routing {

// One road_island per part, the longest first: its roads and length, how many parcels have their
// access point on it, and the gap to the nearest road of the main network, exact, when it is within
// a mile. O(edges) and a few hundred looks per vertex of the islands. Stopped early: not complete.
std::vector<Problem> island_problems(const District& district, const Network& network,
                                     const Access& access, const Work& work);

}  // namespace farwater::routing
