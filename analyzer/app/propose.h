// From a district to proposals: the places, what each gains, the choice, and what the chosen ones
// do together.
#pragma once

#include <optional>
#include <span>

#include "analyzer/app/commands/options.h"
#include "analyzer/app/stages.h"
#include "analyzer/app/what_if.h"
#include "analyzer/district/proposal.h"
#include "analyzer/parallel/work.h"
#include "reports/proposals.h"

namespace farwater::app {

// `pipes` are the ways to mapped water (pipes_to_water.h). Throws SettingsError where an id of the
// options is none of the places'. None when stopped.
std::optional<reports::ProposalFindings> propose(WhatIf& district,
                                                 std::span<const RoadNearWater> pipes,
                                                 const ProposeOptions& options, const Work& work,
                                                 const StageBegins& begins);

}  // namespace farwater::app
