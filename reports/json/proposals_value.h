// Chosen places as one JSON value, for all documents that tell of them.
#pragma once

#include "reports/json/json_cells.h"
#include "reports/proposals.h"

namespace farwater::reports {

json proposals_value(const ProposalFindings& findings);

}  // namespace farwater::reports
