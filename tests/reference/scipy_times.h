// Times compared with those of SciPy's csgraph, by tests/reference/compare_with_scipy.py.
#pragma once

#include <string>

#include "tests/reference/street_graph.h"

namespace farwater::reference {

// Whether Debian's Python finds SciPy; where not, says so in the sentence by which ctest knows a
// skipped test.
bool scipy_installed();

struct Compared {
    bool equal = false;
    std::string said;  // how many pairs, or the first differences
};
Compared compare_with_scipy(const StreetGraph& graph, const Sample& sample, const Times& times);

}  // namespace farwater::reference
