#include <algorithm>

#include "analyzer/demand/method.h"
#include "analyzer/demand/steps.h"
#include "analyzer/demand/use_table.h"

namespace farwater::demand {
namespace {

class RuralSupply {
public:
    explicit RuralSupply(const NeedRules& rules)
        : construction_(by_word<Construction>(rules.standard, "construction")),
          hazard_(by_word<BuildingUse>(rules.standard, "hazard")),
          below_gal_(rules.standard.list("delivery_rate.below_gal")),
          rate_gpm_(rules.standard.list("delivery_rate.rate_gpm")),
          least_gal_(rules.standard.number("supply.least_gal")),
          least_exposed_gal_(rules.standard.number("supply.least_exposed_gal")),
          exposed_factor_(rules.standard.number("supply.exposed_factor")),
          reach_(feet(rules.standard.number("exposure.reach_ft"))),
          any_size_up_to_(rules.standard.number("exposure.any_size_up_to_hazard")),
          dwelling_cap_(rules.dwelling_cap ? rules.standard.number("construction.dwelling_cap")
                                           : no_cap) {}

    BuildingNeed operator()(const BuildingFacts& facts) const {
        const double hazard = hazard_of(facts);
        const bool exposed = is_exposed(facts, hazard);
        const NeedFactors by{.hazard = hazard,
                             .construction = construction_of(facts),
                             .exposed = exposed ? exposed_factor_ : 1.0,
                             .least_gal = exposed ? least_exposed_gal_ : least_gal_};
        const double plain = facts.volume_cuft / hazard * by.construction;
        const double total = exposed ? std::max(plain * exposed_factor_, least_exposed_gal_)
                                     : std::max(plain, least_gal_);
        NeedInputs looked_at{NeedInput::footprint, NeedInput::construction, NeedInput::storeys};
        if (facts.hazard_class == 0) {
            looked_at.add(NeedInput::use);
        }
        return {gpm(entry_below(below_gal_, rate_gpm_, total)), Duration{}, total, looked_at, by};
    }

private:
    static constexpr double no_cap = 1e9;

    double hazard_of(const BuildingFacts& facts) const {
        return facts.hazard_class != 0 ? facts.hazard_class : of(hazard_, facts.use);
    }
    double construction_of(const BuildingFacts& facts) const {
        const double own = of(construction_, facts.construction);
        return is_dwelling(facts.use) ? std::min(own, dwelling_cap_) : own;
    }
    // Measured to the millimetre, so that 50 ft on the map are 50 ft.
    bool is_exposed(const BuildingFacts& facts, double hazard) const {
        const float nearest = hazard <= any_size_up_to_ ? facts.separation.nearest_m
                                                        : facts.separation.nearest_large_m;
        return static_cast<double>(nearest) <= in_metres(reach_) + half_millimetre;
    }

    ByWord<Construction> construction_;
    ByWord<BuildingUse> hazard_;
    std::vector<double> below_gal_, rate_gpm_;
    double least_gal_, least_exposed_gal_, exposed_factor_;
    Length reach_;
    double any_size_up_to_;
    double dwelling_cap_;
};

}  // namespace

Method rural_supply(const NeedRules& rules) { return RuralSupply(rules); }

}  // namespace farwater::demand
