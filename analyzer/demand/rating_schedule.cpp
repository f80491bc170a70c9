#include <algorithm>
#include <cmath>

#include "analyzer/demand/method.h"
#include "analyzer/demand/steps.h"
#include "analyzer/demand/use_table.h"

namespace farwater::demand {
namespace {

bool is_fire_resistive(Construction construction) {
    return construction == Construction::type_1a || construction == Construction::type_1b;
}
// Frame and joisted masonry: what burns by itself.
bool is_combustible(Construction construction) { return construction >= Construction::type_3a; }

// Effective area, from it the construction's share C of the flow.
class ConstructionFlow {
public:
    explicit ConstructionFlow(const Standard& standard)
        : coefficient_(by_word<Construction>(standard, "construction")),
          factor_(standard.number("construction.factor")),
          share_(standard.number("area.other_floors_share")),
          most_others_(standard.number("area.fire_resistive_other_floors")),
          round_to_(standard.number("construction_flow.round_to_gpm")),
          least_(standard.number("construction_flow.least_gpm")),
          most_combustible_(standard.number("construction_flow.most_combustible_gpm")),
          most_other_(standard.number("construction_flow.most_other_gpm")),
          most_one_storey_(standard.number("construction_flow.most_one_storey_gpm")) {}

    double effective_sqft(const BuildingFacts& facts) const {
        const bool resistive = is_fire_resistive(facts.construction);
        const double others =
            resistive ? std::min(facts.storeys - 1.0, most_others_) : facts.storeys - 1.0;
        return facts.area_sqft * (1.0 + share_ * others);
    }

    double of_building(const BuildingFacts& facts, NeedFactors& by) const {
        const double area = effective_sqft(facts);
        by.factor = factor_;
        by.coefficient = of(coefficient_, facts.construction);
        by.effective_sqft = area;
        const double exact = factor_ * by.coefficient * std::sqrt(area);
        by.construction_gpm =
            std::clamp(rounded_to(exact, round_to_), least_, std::max(least_, most_of(facts)));
        return by.construction_gpm;
    }

private:
    double most_of(const BuildingFacts& facts) const {
        const double most = is_combustible(facts.construction) ? most_combustible_ : most_other_;
        return facts.storeys <= 1.0 ? std::min(most, most_one_storey_) : most;
    }

    ByWord<Construction> coefficient_;
    double factor_, share_, most_others_, round_to_, least_;
    double most_combustible_, most_other_, most_one_storey_;
};

class RatingSchedule {
public:
    explicit RatingSchedule(const NeedRules& rules)
        : construction_(rules.standard),
          occupancy_(by_word<BuildingUse>(rules.standard, "occupancy")),
          near_ft_(rules.standard.list("exposure.up_to_ft")),
          near_factor_(rules.standard.list("exposure.factor")),
          most_exposure_(rules.standard.number("exposure.most_together")),
          least_(rules.standard.number("needed_flow.least_gpm")),
          most_(rules.standard.number("needed_flow.most_gpm")),
          round_to_(rules.standard.number("needed_flow.round_to_gpm")),
          coarse_above_(rules.standard.number("needed_flow.coarse_above_gpm")),
          coarse_to_(rules.standard.number("needed_flow.coarse_round_to_gpm")),
          dwelling_storeys_(rules.standard.number("dwelling.most_storeys")),
          dwelling_sqft_(rules.standard.number(dwelling_key(rules, "most_sqft"))),
          dwelling_ft_(dwelling_list(rules, "up_to_ft")),
          dwelling_gpm_(dwelling_list(rules, "gpm")),
          hours_up_to_(rules.standard.list("duration.up_to_gpm")),
          hours_(rules.standard.list("duration.hours")) {
        near_factor_.push_back(0.0);  // beyond the last distance
    }

    BuildingNeed operator()(const BuildingFacts& facts) const {
        if (goes_by_distance(facts)) {
            NeedFactors by;
            by.gap_ft = gap_ft(facts);
            return with_duration(entry_up_to(dwelling_ft_, dwelling_gpm_, *by.gap_ft),
                                 {NeedInput::footprint, NeedInput::use, NeedInput::storeys}, by);
        }
        NeedFactors by;
        by.occupancy = of(occupancy_, facts.use);
        by.exposures = exposure_of(facts);
        const double flow =
            construction_.of_building(facts, by) * by.occupancy * (1.0 + by.exposures);
        return with_duration(
            std::clamp(rounded(flow), least_, std::max(least_, most_)),
            {NeedInput::footprint, NeedInput::use, NeedInput::construction, NeedInput::storeys},
            by);
    }

private:
    static std::string dwelling_key(const NeedRules& rules, std::string_view what) {
        return "dwelling." + std::string(word(rules.separation_table)) + "_" + std::string(what);
    }
    static std::vector<double> dwelling_list(const NeedRules& rules, std::string_view what) {
        return rules.standard.list(dwelling_key(rules, what));
    }

    bool goes_by_distance(const BuildingFacts& facts) const {
        const bool small =
            dwelling_sqft_ <= 0.0 || construction_.effective_sqft(facts) <= dwelling_sqft_;
        return is_dwelling(facts.use) && facts.storeys <= dwelling_storeys_ && small;
    }

    // In whole feet, as the table is: rounded down, so that 30.5 ft are still 30.
    static double gap_ft(const BuildingFacts& facts) {
        const double gap_m = static_cast<double>(facts.separation.nearest_large_m);
        return std::floor(in_feet(metres(gap_m + half_millimetre)));
    }

    double exposure_of(const BuildingFacts& facts) const {
        double sum = 0.0;
        for (const std::uint8_t side : facts.separation.sides_ft) {
            if (side != Separation::no_side) {
                sum += entry_up_to(near_ft_, near_factor_, side);
            }
        }
        return std::min(sum, most_exposure_);
    }

    double rounded(double flow) const {
        return rounded_to(flow, flow > coarse_above_ ? coarse_to_ : round_to_);
    }

    BuildingNeed with_duration(double flow, NeedInputs looked_at, const NeedFactors& by) const {
        return {gpm(flow), minutes(60.0 * entry_up_to(hours_up_to_, hours_, flow)), 0.0, looked_at,
                by};
    }

    ConstructionFlow construction_;
    ByWord<BuildingUse> occupancy_;
    std::vector<double> near_ft_, near_factor_;
    double most_exposure_, least_, most_, round_to_, coarse_above_, coarse_to_;
    double dwelling_storeys_, dwelling_sqft_;
    std::vector<double> dwelling_ft_, dwelling_gpm_, hours_up_to_, hours_;
};

}  // namespace

Method rating_schedule(const NeedRules& rules) { return RatingSchedule(rules); }

}  // namespace farwater::demand
