// A building as the methods look at it: nothing is missing any more, and what took a default is
// noted. Square and cubic feet, as the published tables have them.
#pragma once

#include "analyzer/district/assumptions.h"
#include "analyzer/district/building.h"
#include "analyzer/district/need.h"
#include "analyzer/district/need_rules.h"

namespace farwater::demand {

struct BuildingFacts {
    double area_sqft = 0.0;    // footprint, over 0
    double storeys = 1.0;      // at least 1
    double volume_cuft = 0.0;  // up to the eaves, and half of what is above
    BuildingUse use = BuildingUse::dwelling;
    Construction construction = Construction::type_5b;
    Sprinklers sprinklers = Sprinklers::none;  // by a column only
    int hazard_class = 0;                      // of the data; 0 = by the use
    Separation separation;
    NeedInputs defaulted;
};

// Precondition: the building's area is known. Heights go before storeys, storeys before the
// default. Of a building that is drawn as a point nobody knows how near others stand: under a
// method that asks, it counts as if they touched it on all sides, and its footprint as defaulted.
BuildingFacts facts_of(const Building& building, const NeedRules& rules,
                       const Assumptions& assumptions);

bool is_dwelling(BuildingUse use);  // of one or two families

}  // namespace farwater::demand
