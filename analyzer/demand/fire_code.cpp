#include <algorithm>
#include <array>

#include "analyzer/demand/method.h"
#include "analyzer/demand/steps.h"

namespace farwater::demand {
namespace {

constexpr std::size_t columns = 5;

// The column of the table that a construction stands in.
std::size_t column_of(Construction construction) {
    switch (construction) {
        case Construction::type_1a:
        case Construction::type_1b:
            return 0;
        case Construction::type_2a:
        case Construction::type_3a:
            return 1;
        case Construction::type_4:
        case Construction::type_5a:
            return 2;
        case Construction::type_2b:
        case Construction::type_3b:
            return 3;
        case Construction::type_5b:
            break;
    }
    return 4;
}

std::vector<double> column_list(const Standard& standard, const std::string& table) {
    std::vector<double> list = standard.list(table + ".up_to_sqft");
    const std::vector<double> more = standard.list(table + ".then_up_to_sqft");
    list.insert(list.end(), more.begin(), more.end());
    return list;
}

class FireCode {
public:
    explicit FireCode(const NeedRules& rules)
        : small_sqft_(rules.standard.number("dwelling.small_up_to_sqft")),
          small_gpm_(rules.standard.number("dwelling.small_gpm")),
          small_hours_(rules.standard.number("dwelling.small_hours")),
          wet_small_gpm_(rules.standard.number("sprinklers.small_dwelling_gpm")),
          wet_small_hours_(rules.standard.number("sprinklers.small_dwelling_hours")),
          wet_large_share_(rules.standard.number("sprinklers.large_dwelling_share")),
          wet_large_hours_(rules.standard.number("sprinklers.large_dwelling_hours")),
          wet_share_(rules.standard.number("sprinklers.other_share")),
          least_13_gpm_(rules.standard.number("sprinklers.least_nfpa_13_gpm")),
          least_13r_gpm_(rules.standard.number("sprinklers.least_nfpa_13r_gpm")),
          type_1_floors_(rules.standard.number("area.type_1_floors")),
          first_gpm_(rules.standard.number("flow.first_gpm")),
          step_gpm_(rules.standard.number("flow.step_gpm")),
          hours_up_to_(rules.standard.list("duration.up_to_gpm")),
          hours_(rules.standard.list("duration.hours")) {
        constexpr std::array<const char*, columns> names{"table_1", "table_2a_3a", "table_4_5a",
                                                         "table_2b_3b", "table_5b"};
        for (std::size_t i = 0; i < columns; ++i) {
            up_to_sqft_[i] = column_list(rules.standard, names[i]);
        }
    }

    BuildingNeed operator()(const BuildingFacts& facts) const {
        const bool wet = facts.sprinklers != Sprinklers::none;
        if (!is_dwelling(facts.use)) {
            const NeedFactors by = table_of(facts);
            const double flow = by.table_gpm;
            return need(lowered(facts, flow), hours_of(flow), everything, by);
        }
        if (facts.area_sqft * facts.storeys <= small_sqft_) {
            return need(wet ? wet_small_gpm_ : small_gpm_, wet ? wet_small_hours_ : small_hours_,
                        {NeedInput::use, NeedInput::storeys});
        }
        const NeedFactors by = table_of(facts);
        const double flow = by.table_gpm;
        return wet ? need(flow * wet_large_share_, wet_large_hours_, everything, by)
                   : need(flow, hours_of(flow), everything, by);
    }

private:
    static constexpr NeedInputs everything{NeedInput::use, NeedInput::construction,
                                           NeedInput::storeys};

    static BuildingNeed need(double flow, double hours, NeedInputs looked_at,
                             const NeedFactors& by = {}) {
        return {gpm(flow), minutes(60.0 * hours), 0.0, looked_at, by};
    }

    // Row after row the flow goes up by one step.
    NeedFactors table_of(const BuildingFacts& facts) const {
        const std::size_t column = column_of(facts.construction);
        const double floors = column == 0 ? std::min(facts.storeys, type_1_floors_) : facts.storeys;
        const double area = facts.area_sqft * floors;
        const auto& bounds = up_to_sqft_[column];
        const auto row = std::ranges::lower_bound(bounds, area) - bounds.begin();
        NeedFactors by;
        by.floor_sqft = area;
        by.table_gpm = first_gpm_ + static_cast<double>(row) * step_gpm_;
        return by;
    }

    double hours_of(double flow) const { return entry_up_to(hours_up_to_, hours_, flow); }

    // Of other buildings than dwellings. Systems for dwellings are none there, and those for
    // residential buildings count where people live.
    double lowered(const BuildingFacts& facts, double flow) const {
        const bool full = facts.sprinklers == Sprinklers::nfpa_13;
        const bool lived_in =
            facts.use == BuildingUse::apartments || facts.use == BuildingUse::lodging;
        if (!full && !(facts.sprinklers == Sprinklers::nfpa_13r && lived_in)) {
            return flow;
        }
        return std::min(flow, std::max(flow * wet_share_, full ? least_13_gpm_ : least_13r_gpm_));
    }

    double small_sqft_, small_gpm_, small_hours_;
    double wet_small_gpm_, wet_small_hours_, wet_large_share_, wet_large_hours_;
    double wet_share_, least_13_gpm_, least_13r_gpm_;
    double type_1_floors_, first_gpm_, step_gpm_;
    std::vector<double> hours_up_to_, hours_;
    std::array<std::vector<double>, columns> up_to_sqft_;
};

}  // namespace

Method fire_code(const NeedRules& rules) { return FireCode(rules); }

Method method_of(const NeedRules& rules) {
    switch (rules.method) {
        case NeedMethod::rural_supply:
            return rural_supply(rules);
        case NeedMethod::rating_schedule:
            return rating_schedule(rules);
        case NeedMethod::fire_code:
            return fire_code(rules);
        case NeedMethod::column:
        case NeedMethod::fixed:
            break;
    }
    return {};
}

}  // namespace farwater::demand
