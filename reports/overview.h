// The picture of a whole district on one page: roads, houses by state, sources, dump sites,
// stations.
#pragma once

#include <string>

#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

// An SVG document of about 1,000 by 760 units with legend, scale bar and cautions; the same bytes
// for the same findings. States are told by shape as well as by colour. O(parcels + road vertices).
std::string overview_svg(const Findings& findings, const RunRecord& record);

}  // namespace farwater::reports
