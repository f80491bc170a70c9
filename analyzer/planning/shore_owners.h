// One way for a pipe by each owner's ground, so that one who refuses is not the end.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"

namespace farwater::planning {

// Empty: the data do not tell.
using OwnerOf = std::function<std::string_view(ParcelIndex)>;

// Of the ways from each water, which stand together, the shortest first: those for which none that
// is shorter asks only people whom they ask too. Parcels without an owner are each somebody's; a
// way over ground in no parcel is kept once, and no other goes for it, for nobody knows whom it
// asks. Sets `owner`: "Smith (parcel 12-1) and the owner of parcel 12-2". O(ways x kept of their
// water).
std::vector<RoadNearWater> shortest_by_owner(const District& district,
                                             std::vector<RoadNearWater> ways,
                                             const OwnerOf& owner_of);

}  // namespace farwater::planning
