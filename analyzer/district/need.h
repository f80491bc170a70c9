// What a property needs: the flow, for how long, and how well that is known.
#pragma once

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

struct Need {
    HeldFlow flow{};
    Duration duration;  // the state is judged over it
    Evidence evidence =
        Evidence::assumed;  // declared: the property's own, or the default is the district's word
};

}  // namespace farwater
