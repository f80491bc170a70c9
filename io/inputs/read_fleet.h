// Apparatus and response zones: tables without shapes that refer to each other.
#pragma once

#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/assumptions.h"
#include "analyzer/parallel/work.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// A unit without a known station or kind, and a tanker without a tank size, is set aside, and so is
// one whose id an earlier unit has. An engine without a tank size has the assumption's. Throw what
// for_each_record throws.
LayerRows<Unit> read_apparatus(const LayerSource& source, const std::vector<Station>& stations,
                               const Assumptions& assumptions, const Work& work);

LayerRows<ResponseRule> read_response_zones(const LayerSource& source,
                                            const std::vector<Unit>& units, const Work& work);

}  // namespace farwater::io
