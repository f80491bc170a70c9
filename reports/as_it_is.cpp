#include "reports/as_it_is.h"

#include <algorithm>

#include "analyzer/planning/gains.h"

namespace farwater::reports {

AsItIs as_it_is(std::span<const supply::ParcelSupply> of_parcels) {
    AsItIs now;
    for (const supply::ParcelSupply& supply : of_parcels) {
        if (supply.state == SupplyState::no_building) {
            continue;
        }
        ++now.improved;
        now.held += supply.state == SupplyState::held ? 1 : 0;
        if (supply.state == SupplyState::unknown) {
            continue;  // nobody knows what is missing there
        }
        const int missing = in_tenths(supply.needed) - in_tenths(supply::flow_from_start(supply));
        now.short_of_gpm += std::max(0, missing) / 10.0;
    }
    return now;
}

}  // namespace farwater::reports
