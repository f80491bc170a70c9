// What a district could buy, agree or staff when nobody has said what is thought of: one more of
// each usual thing, worked out from the district itself. Nothing of it has a cost.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/improvement.h"

namespace farwater::planning {

// For each of the district's own stations, in this order: a tanker like the one that it has most
// of; on its first unit a portable tank of the district's usual size and, where no unit has one, a
// jet siphon; 1,000 ft more of its largest hose on its first engine; a dump valve of 1,000 gpm on
// its slowest tanker; and a crew for the first unit, tankers before engines, that stays in quarters
// in the thinnest period. Then automatic aid of each unit that comes on request. What a station has
// no use for is left out. Without names.
std::vector<Improvement> stock_improvements(const District& district, PeriodIndex thinnest);

}  // namespace farwater::planning
