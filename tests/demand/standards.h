// Needed-flow rules with the program's own numbers, and buildings to try them on.
#pragma once

#include "analyzer/demand/method.h"
#include "io/settings/read_standard.h"

namespace farwater::demand {

inline NeedRules rules_with(NeedMethod method) {
    NeedRules rules;
    rules.method = method;
    rules.standard = io::built_in_standard(method);
    return rules;
}

// A wood-frame dwelling of one storey that stands alone.
inline BuildingFacts house(double area_sqft) {
    BuildingFacts facts;
    facts.area_sqft = area_sqft;
    facts.volume_cuft = area_sqft * 12.0;
    facts.separation.known = true;
    return facts;
}

inline double flow_of(const Method& method, const BuildingFacts& facts) {
    return in_gpm(method(facts).flow);
}

}  // namespace farwater::demand
