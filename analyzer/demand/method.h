// The published methods that tell what a building needs. The numbers of each stand in
// analyzer/demand/standards, or in the district's own copy.
#pragma once

#include <functional>
#include <optional>

#include "analyzer/demand/building_facts.h"
#include "analyzer/district/need.h"
#include "analyzer/district/need_rules.h"
#include "analyzer/district/units.h"

namespace farwater::demand {

// The numbers between a building's facts and its need; 0 where its method has no such number.
struct NeedFactors {
    // rural supply: volume / hazard x construction x exposed, at least so many gallons
    double hazard = 0, construction = 0, exposed = 0, least_gal = 0;
    // rating schedule: factor x coefficient x sqrt(effective area), rounded, x occupancy
    // x (1 + exposures); or a dwelling by its gap
    double factor = 0, coefficient = 0, effective_sqft = 0, construction_gpm = 0;
    double occupancy = 0, exposures = 0;
    std::optional<double> gap_ft;  // infinite: none within the reach
    // fire code: the table's flow for the floor area, before sprinklers
    double floor_sqft = 0, table_gpm = 0;
};

struct BuildingNeed {
    Flow flow;
    Duration duration;     // 0 = the method has none
    double total_gal = 0;  // 0 = the method has none
    NeedInputs looked_at;  // what the answer went by
    NeedFactors by;
};

using Method = std::function<BuildingNeed(const BuildingFacts&)>;

// Minimum supply of the rural water supply standard (NFPA 1142): volume over the hazard number,
// times the construction class, 1.5 times that where another building is near; the rate by the
// total. Sprinklers are not credited: whether they may stand for the supply is for the authority to
// say.
Method rural_supply(const NeedRules& rules);

// Needed fire flow of the rating schedule; dwellings by the distance to the next building. The
// length, height and openings of facing walls, passages, roof covering, shafts and the demand of
// sprinklers are not in the data: exposures take the largest factor of their distance, the rest
// none.
Method rating_schedule(const NeedRules& rules);

// Fire flow of the fire code's Appendix B.
Method fire_code(const NeedRules& rules);

// The method that the rules name; empty for a column or a fixed flow.
Method method_of(const NeedRules& rules);

}  // namespace farwater::demand
