#include "analyzer/demand/building_facts.h"

#include <algorithm>
#include <cmath>

namespace farwater::demand {
namespace {

// To a tenth: a footprint is not known better, and 3,600 square feet shall be 3,600.
double square_feet(float area_m2) {
    const double exact = static_cast<double>(area_m2) / square_metres_per_square_foot;
    return std::round(exact * 10.0) / 10.0;
}

double feet_of(float length_m) { return in_feet(metres(static_cast<double>(length_m))); }

bool tells_height(const BuildingTraits& traits) {
    return traits.height_m > 0.0F || traits.eaves_m > 0.0F;
}

// What counts of the height: all that is below the eaves and half of what is above. Of a building
// with a height and no eaves all of it counts, since it may have a flat roof.
double counted_height_ft(const BuildingTraits& traits, double storeys,
                         const Assumptions& assumptions) {
    const double rise = in_feet(assumptions.roof_rise);
    const double eaves = feet_of(traits.eaves_m);
    const double height = feet_of(traits.height_m);
    if (traits.height_m > 0.0F) {
        return traits.eaves_m > 0.0F ? (eaves + height) / 2.0 : height;
    }
    const double walls =
        traits.eaves_m > 0.0F ? eaves : storeys * in_feet(assumptions.storey_height);
    return walls + rise / 2.0;
}

// Told from the height where no column has them: rounded up.
double storeys_of(const BuildingTraits& traits, const Assumptions& assumptions) {
    if (traits.storeys > 0.0F) {
        return std::max(1.0, static_cast<double>(traits.storeys));
    }
    if (!tells_height(traits)) {
        return assumptions.default_storeys;
    }
    const double walls = traits.eaves_m > 0.0F
                             ? feet_of(traits.eaves_m)
                             : feet_of(traits.height_m) - in_feet(assumptions.roof_rise);
    constexpr double a_little = 1e-3;
    return std::max(1.0, std::ceil(walls / in_feet(assumptions.storey_height) - a_little));
}

bool asks_for_separation(const NeedRules& rules) {
    return rules.standard.number("exposure.reach_ft") > 0.0;
}

constexpr Separation touched_on_all_sides{
    .nearest_m = 0.0F, .nearest_large_m = 0.0F, .sides_ft = {0, 0, 0, 0}, .known = false};

}  // namespace

BuildingFacts facts_of(const Building& building, const NeedRules& rules,
                       const Assumptions& assumptions) {
    const BuildingTraits& traits = building.traits;
    BuildingFacts facts{.area_sqft = square_feet(building.area_m2),
                        .storeys = storeys_of(traits, assumptions),
                        .volume_cuft = 0.0,
                        .use = traits.use.value_or(rules.default_use),
                        .construction = traits.construction.value_or(rules.default_construction),
                        .sprinklers = traits.sprinklers.value_or(Sprinklers::none),
                        .hazard_class = traits.hazard_class,
                        .separation = building.separation,
                        .defaulted = {}};
    facts.volume_cuft = facts.area_sqft * counted_height_ft(traits, facts.storeys, assumptions);
    if (!building.separation.known && asks_for_separation(rules)) {
        facts.separation = touched_on_all_sides;
        facts.defaulted.add(NeedInput::footprint);
    }
    if (!traits.use) {
        facts.defaulted.add(NeedInput::use);
    }
    if (!traits.construction) {
        facts.defaulted.add(NeedInput::construction);
    }
    if (traits.storeys <= 0.0F && !tells_height(traits)) {
        facts.defaulted.add(NeedInput::storeys);
    }
    return facts;
}

bool is_dwelling(BuildingUse use) {
    return use == BuildingUse::dwelling || use == BuildingUse::manufactured_home;
}

}  // namespace farwater::demand
