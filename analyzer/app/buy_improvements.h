// Improvements dealt into years by what each year has to spend, and worked out together.
#pragma once

#include "analyzer/app/analysis.h"
#include "analyzer/parallel/work.h"
#include "reports/improvements.h"

namespace farwater::app {

// Of the weighed improvements that gain something by themselves and have a price: in the order of
// planning::order_of_building, each property counted with the best of them, upkeep paid from the
// year of buying on and one that nobody gave as none. Then each on top of those before it by a
// whole analysis; what adds nothing there is left out and counted. `as_is` is the district's own
// analysis. False when stopped. Precondition: findings.yearly_budget > 0.
bool buy_improvements(reports::ImprovementFindings& findings, const Analysis& as_is,
                      const Work& work);

}  // namespace farwater::app
