// From a district to proposals: the places, what each gains, the choice, and what the chosen ones
// do together.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/app/commands/options.h"
#include "analyzer/app/stages.h"
#include "analyzer/app/what_if.h"
#include "analyzer/parallel/work.h"
#include "reports/proposals.h"

namespace farwater::app {

// Throws SettingsError where an id of the options is none of the places'. None when stopped.
std::optional<reports::ProposalFindings> propose(WhatIf& district, const ProposeOptions& options,
                                                 const Work& work, const StageBegins& begins);

}  // namespace farwater::app
