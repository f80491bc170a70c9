// Times by LEMON, a general-purpose graph library.
#pragma once

#include "tests/reference/street_graph.h"

namespace farwater::reference {

// One full search from each source.
Times lemon_times(const StreetGraph& graph, const Sample& sample);

}  // namespace farwater::reference
