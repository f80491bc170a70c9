// The stage that chooses where the next sources of water go: of `propose`, and of a `run` whose
// district file has the table [next_source].
#pragma once

#include <optional>
#include <vector>

#include "analyzer/app/commands/options.h"
#include "analyzer/app/stages.h"
#include "analyzer/app/what_if.h"
#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/read_district.h"
#include "reports/proposals.h"

namespace farwater::app {

struct NextSource {
    WhatIf district;
    reports::ProposalFindings findings;  // only a view of `district`
};

// Throws SettingsError where the district file tells no place to choose from.
void check_places(const io::DistrictFile& file);

// `district` is that of `read`, which may be gone from there. What the options do not tell is as
// the district file has it. Works the whole supply out once, and again for the places. Throws
// SettingsError where an id is none of the places'. None when stopped.
std::optional<NextSource> choose_next_source(District district,
                                             std::vector<std::optional<Need>> needs,
                                             const io::DistrictFile& file,
                                             const io::ReadResult& read, ProposeOptions options,
                                             const Work& work, const StageBegins& begins);

}  // namespace farwater::app
