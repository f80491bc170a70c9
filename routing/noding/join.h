// Which vertices of the road lines join.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "analyzer/district/road.h"
#include "analyzer/parallel/work.h"
#include "routing/noding/vertices.h"

namespace farwater::routing {

using VertexPair = std::pair<std::uint32_t, std::uint32_t>;
using PairLists = std::vector<std::vector<VertexPair>>;  // in parts, as they were found

// All pairs of vertices that join by the rules of build_network. A pair may come twice. Stopped
// early: not complete. O(vertices log vertices).
PairLists joining_pairs(const std::vector<Road>& roads, const Vertices& vertices,
                        const JoinReach& reach, const Work& work);

}  // namespace farwater::routing
