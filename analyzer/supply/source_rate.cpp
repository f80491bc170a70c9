#include "analyzer/supply/source_rate.h"

#include <algorithm>

#include "analyzer/hydraulics/hydrant_flow.h"
#include "analyzer/hydraulics/pump.h"
#include "analyzer/supply/suction_point.h"

namespace farwater::supply {
namespace {

// The flow of the test; none where it is not told.
std::optional<Flow> tested_flow(const HydrantData& hydrant, const Assumptions& assumptions) {
    if (hydrant.test_flow) {
        return hydrant.test_flow;
    }
    if (!hydrant.pitot_psi || !hydrant.outlet) {
        return std::nullopt;
    }
    return hydraulics::pitot_flow(
        *hydrant.pitot_psi, *hydrant.outlet,
        hydrant.outlet_coefficient.value_or(assumptions.outlet_coefficient));
}

void lower_to(SourceRate& found, Flow flow, RateLimit limit) {
    if (flow < found.rate) {
        found.rate = flow;
        found.limit = limit;
    }
}

// The flow test carried on to the residual pressure, but to no more than what flowed where the
// pressure hardly fell; none where there is none that can be used.
std::optional<Flow> by_flow_test(const HydrantData& hydrant, const Assumptions& assumptions,
                                 SourceRate& found) {
    const std::optional<Flow> flow = tested_flow(hydrant, assumptions);
    if (!hydrant.static_psi || !hydrant.residual_psi || !flow) {
        if (hydrant.static_psi || hydrant.residual_psi || hydrant.test_flow || hydrant.pitot_psi) {
            found.notes.push_back({ProblemId::flow_test_incomplete, {}});
        }
        return std::nullopt;
    }
    const hydraulics::FlowTest test{*hydrant.static_psi, *hydrant.residual_psi, *flow};
    const auto carried_on = hydraulics::flow_at_residual(test, assumptions.hydrant_residual_psi);
    if (!carried_on) {
        found.notes.push_back({ProblemId::flow_test_impossible, {}});
        found.evidence = std::min(found.evidence, Evidence::declared);
        return std::nullopt;
    }
    if (*carried_on > test.flow && !hydraulics::drops_enough(test)) {
        found.notes.push_back({ProblemId::flow_test_small_drop, {}});
        return test.flow;
    }
    return carried_on;
}

bool main_is_strong(const HydrantData& hydrant, const Assumptions& assumptions) {
    return hydrant.main && *hydrant.main > assumptions.weak_main &&
           !hydrant.dead_end_main.value_or(true);
}

// No test and no rate: the bonnet, else the main.
void by_mark_or_main(const HydrantData& hydrant, const Assumptions& assumptions,
                     SourceRate& found) {
    found.evidence = Evidence::assumed;
    found.notes.push_back({ProblemId::source_rate_assumed, {}});
    if (hydrant.colour) {
        found.rate = *hydrant.colour == HydrantColour::red
                         ? assumptions.weak_main_rate
                         : hydraulics::least_of_class(*hydrant.colour);
        found.limit = RateLimit::colour;
        return;
    }
    found.assumed.emplace_back("rate_gpm");
    const bool strong = main_is_strong(hydrant, assumptions);
    found.rate = strong ? assumptions.hydrant_rate
                        : std::min(assumptions.hydrant_rate, assumptions.weak_main_rate);
    found.limit = strong ? RateLimit::standard : RateLimit::main;
}

void rate_hydrant(const WaterSource& source, const Assumptions& assumptions, SourceRate& found) {
    const std::optional<Flow> test = by_flow_test(source.hydrant, assumptions, found);
    if (test) {
        found.rate = *test;
        found.limit = RateLimit::flow_test;
        if (source.rate) {
            lower_to(found, *source.rate, RateLimit::stated);
        }
    } else if (source.rate) {
        found.rate = *source.rate;
        found.limit = RateLimit::stated;
    } else {
        by_mark_or_main(source.hydrant, assumptions, found);
    }
    const bool no_pressure =
        source.hydrant.static_psi && *source.hydrant.static_psi <= assumptions.hydrant_residual_psi;
    if (no_pressure || (test && !(*test > gpm(0)))) {
        found.obstacle = ProblemId::hydrant_pressure_low;
    }
}

Flow default_rate(SourceKind kind, const Assumptions& assumptions) {
    switch (kind) {
        case SourceKind::hydrant:
            return assumptions.hydrant_rate;
        case SourceKind::dry_hydrant:
            return assumptions.dry_hydrant_rate;
        case SourceKind::draft_site:
            return assumptions.draft_site_rate;
        case SourceKind::cistern:
            return assumptions.cistern_rate;
    }
    return gpm(0);
}

void rate_suction_point(const WaterSource& source, const District& district, bool proved,
                        SourceRate& found) {
    const Assumptions& assumptions = district.assumptions;
    const SuctionPoint point = suction_point(source, district);
    if (point.lift > assumptions.most_lift) {
        found.obstacle = ProblemId::source_lift_too_high;
        return;
    }
    const bool measured = proved && source.rate.has_value();
    const std::optional<Flow> most = point.most();
    if (!most && !(measured && !source.suction.lift)) {
        found.obstacle = ProblemId::source_cannot_draft;
        return;
    }
    found.pump_share = hydraulics::pump_share_at_lift(point.lift, point.altitude);
    found.rate = source.rate.value_or(default_rate(source.kind, assumptions));
    found.limit = source.rate ? RateLimit::stated : RateLimit::standard;
    if (!source.rate) {
        found.evidence = Evidence::assumed;
        found.assumed.emplace_back("rate_gpm");
        found.notes.push_back({ProblemId::source_rate_assumed, {}});
    }
    if (!most) {
        return;  // it was drafted from, and of its lift no more is known
    }
    if (!measured) {
        if (*most < found.rate && !point.assumed.empty()) {
            found.evidence = Evidence::assumed;
            found.notes.push_back({ProblemId::source_suction_assumed, point.assumed_in_words()});
        }
        found.assumed.insert(found.assumed.end(), point.assumed.begin(), point.assumed.end());
        lower_to(found, *most, RateLimit::suction);
    } else if (point.assumed.empty() && *most < found.rate) {
        found.notes.push_back({ProblemId::source_test_above_suction, {}});
    }
    found.suction = {point.lift, point.head_at(found.rate), *most};
}

}  // namespace

SourceRate source_rate(const WaterSource& source, const District& district, bool proved,
                       std::optional<Flow> system_most) {
    SourceRate found;
    found.evidence = proved ? Evidence::tested : Evidence::declared;
    if (source.kind == SourceKind::hydrant) {
        rate_hydrant(source, district.assumptions, found);
    } else {
        rate_suction_point(source, district, proved, found);
    }
    if (source.reach == Reach::portable_pump) {
        lower_to(found, district.assumptions.portable_pump_rate, RateLimit::portable_pump);
    }
    if (system_most) {
        lower_to(found, *system_most, RateLimit::system);
    }
    return found;
}

}  // namespace farwater::supply
