// What roads that are drawn twice say together. A list of bridges, closed roads or posted limits
// that stands behind the centrelines draws the same lines once more, and only one line is driven.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"

namespace farwater::routing {

// Duplicates (noding/duplicates.h) take the stricter of both, each of them, so that it is the same
// whichever is driven: the least posted limits, width and speed, the more closed access, the months
// in which both are maintained, the slower class and the gravel surface, one way where either is
// (as that one is drawn), bridge, tunnel and railway crossing of either. What a record leaves blank
// changes nothing. Two halves of a road, one for each direction, stay two; a record of both
// directions beside them is either half. Returns a road_duplicate for each record too many, in the
// order of roads, which says in what it differed from the one that it is drawn as. Once is enough.
// O(roads log roads).
std::vector<Problem> settle_drawn_twice(District& district);

}  // namespace farwater::routing
