// Sources as they would be built where nobody has built any: from the assumptions of proposed
// sources, declared, by nobody.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"

namespace farwater::planning {

// A plastic pipe of new_pipe_in from the road to the shore and new_pipe_beyond_shore_ft on; its
// lift from the water's height less drought_drop_ft to new_pump_height_ft over the road, rounded
// up; without elevation the lift is blank. Its volume is not known. Without a road it stands at the
// water. The n-th way to one water has id DH-2-n for DH-2 and the parcels of its ground in its
// name.
WaterSource dry_hydrant_at(const District& district, const RoadNearWater& road,
                           std::size_t nth = 1);

// new_cistern_gal behind a riser of new_pipe_in, new_cistern_riser_ft long, with
// new_cistern_lift_ft. Id CP-n in front of the parcel of record n, CJ-n at junction n.
WaterSource cistern_at(const District& district, const RoadsidePlace& place);

}  // namespace farwater::planning
