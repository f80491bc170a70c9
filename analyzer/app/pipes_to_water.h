// Where the pipe of a dry hydrant could go to mapped water, and over whose ground.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/read_district.h"

namespace farwater::app {

// One by each owner's ground (planning/shore_owners.h), by water. The parcels' shapes are read once
// more for it, where there is a pipe at all. `district` is that of `read`, which may be gone from
// there. Throws what io::see_second_pass throws. Stopped early: not complete.
std::vector<RoadNearWater> pipes_to_water(const District& district,
                                          std::span<const Profile> profiles,
                                          const io::DistrictFile& file, const io::ReadResult& read,
                                          const Work& work);

}  // namespace farwater::app
