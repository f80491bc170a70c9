// Improvements worked out side by side: the district as it is, then with each of them.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/app/analysis.h"
#include "analyzer/district/improvement.h"
#include "analyzer/parallel/work.h"
#include "reports/improvements.h"

namespace farwater::app {

// Each by the whole analysis of the district with it, as `run` does it: nothing is estimated.
// `as_is` is the district's own analysis. Ranked by what they gain, by weight. None when stopped.
// Costs an analysis for each.
std::optional<reports::ImprovementFindings> weigh_improvements(
    const District& district, const Analysis& as_is, std::vector<Improvement> improvements,
    planning::Weights weights, const Work& work);

}  // namespace farwater::app
