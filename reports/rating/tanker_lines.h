// What each tanker of a shuttle brings in by itself, as a rating sheet adds it up.
#pragma once

#include <vector>

#include "analyzer/rating/rated_district.h"

namespace farwater::reports {

struct TankerLine {
    UnitIndex unit;
    SourceIndex source;                     // where it fills
    Volume usable;                          // delivered per load
    Duration fill, loaded, offload, empty;  // handling in fill and offload, and the drives

    Duration round_trip() const { return fill + loaded + offload + empty; }
    Flow flow() const { return usable / round_trip(); }
};

// By arrival. Empty where no shuttle brings the water. Their sum is the sum of undisturbed cycles
// (supply/handbook.h).
std::vector<TankerLine> tanker_lines(const rating::PlaceCalculation& calculation);

}  // namespace farwater::reports
