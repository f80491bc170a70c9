// A district as it would be with one improvement made.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/district/improvement.h"

namespace farwater::planning {

// What is added stands behind what was there, so that every index still means the same.
// Precondition: the improvement's indices are the district's. O(size of the district): a copy.
//
// - A new unit has the aid of its station and was never timed. It has the crew and the turnout of
//   the one that it is like in each period and is sent where that one is; without one its crew is
//   not known, and it is sent where the units of its kind at its station are.
// - Hose on an engine whose hose is not listed comes on top of the planning default.
// - A tanker with another dump valve has to be timed anew.
// - Automatic aid goes on the first alarm wherever it goes at all.
// - A source in winter is frost-proof and open in every month, in all weather.
// - A road that is kept open is maintained in every month, and open where it was unmaintained.
District with_improvement(const District& district, const Improvement& improvement);

}  // namespace farwater::planning
