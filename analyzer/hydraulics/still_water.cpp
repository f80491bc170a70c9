#include "analyzer/hydraulics/still_water.h"

#include <algorithm>

namespace farwater::hydraulics {

Volume volume_of(Area area, Length depth) {
    return gallons(in_acres(area) * square_feet_per_acre * in_feet(depth) * gallons_per_cubic_foot);
}

Length usable_depth(Length over_intake, Length over_strainer, Length surface_loss) {
    return std::max(feet(0), over_intake - over_strainer - surface_loss);
}

}  // namespace farwater::hydraulics
