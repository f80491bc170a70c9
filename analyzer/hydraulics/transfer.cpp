#include "analyzer/hydraulics/transfer.h"

#include <algorithm>
#include <limits>

namespace farwater::hydraulics {

Flow transfer_limit(std::span<const Volume> usable, Flow siphon) {
    Flow limit = gpm(std::numeric_limits<double>::infinity());
    Volume behind;       // in the tanks from the last one on
    double moves = 0.0;  // gallons, each as often as it is moved
    for (std::size_t tank = usable.size(); tank-- > 1;) {
        behind += usable[tank];
        moves += static_cast<double>(tank) * in_gallons(usable[tank]);
        if (moves > 0.0) {
            limit = std::min(limit, siphon * (in_gallons(usable.front() + behind) / moves));
        }
    }
    return limit;
}

}  // namespace farwater::hydraulics
