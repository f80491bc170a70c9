// Where a new source could be made, before any road is worked on.
#pragma once

#include <vector>

#include "analyzer/district/proposal.h"
#include "analyzer/parallel/work.h"
#include "analyzer/planning/candidates.h"
#include "io/district_file.h"
#include "io/read_district.h"

namespace farwater::app {

// Those that `propose` can choose from, but for cisterns at junctions and on public land: which of
// these are looked at goes by what is missing near them. Throws what pipes_to_water throws. Stopped
// early: not complete.
planning::Candidates source_places(const io::DistrictFile& file, const io::ReadResult& read,
                                   const Work& work);

std::vector<ProposedSource> as_proposals(const planning::Candidates& places);

}  // namespace farwater::app
