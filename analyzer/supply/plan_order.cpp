#include "analyzer/supply/plan_order.h"

#include <algorithm>
#include <tuple>

#include "analyzer/supply/assessment.h"

namespace farwater::supply {
namespace {

bool holds(const ParcelSupply& supply) { return supply.state == SupplyState::held; }
std::int32_t gap_of(const ParcelSupply& supply) { return supply.gap ? in_tenths(*supply.gap) : 0; }

std::int32_t latest_begin(const FirstMinutesTerms& terms, const ParcelSupply& supply) {
    const std::int32_t arrival =
        terms.from_alarm || !supply.first_engine ? 0 : in_tenths(*supply.first_engine);
    return arrival + in_tenths(rounded_up(terms.within));
}

Merit merit_of(const FirstMinutesTerms& terms, const ParcelSupply& supply) {
    Merit merit{.begins = begins_at(supply), .gap = 0, .flow = creditable(supply)};
    if (merit.begins) {
        merit.begins = std::max(*merit.begins, latest_begin(terms, supply));
        merit.gap = gap_of(supply);
    }
    return merit;
}

// Of two that hold the need; larger is worse.
auto doubts_of(const ParcelSupply& supply) {
    constexpr std::int32_t whole = 10;
    return std::tuple(supply.evidence == Evidence::assumed, gap_of(supply) > 0,
                      -static_cast<int>(supply.margin), (gap_of(supply) + whole - 1) / whole,
                      supply.mode == SupplyMode::shuttle);
}

}  // namespace

bool better(const Merit& a, const Merit& b) {
    if (a.begins.has_value() != b.begins.has_value()) {
        return a.begins.has_value();
    }
    return std::tuple(a.begins, a.gap, b.flow) < std::tuple(b.begins, b.gap, a.flow);
}

Duration PlanOrder::flow_from(const Assumptions& assumptions, Duration first_arrival) const {
    if (terms && terms->from_alarm) {
        return std::max(first_arrival, terms->full_within);
    }
    return first_arrival + (terms ? terms->full_within : assumptions.start_after_arrival);
}

Duration PlanOrder::begin_by(Duration first_arrival) const {
    return terms->from_alarm ? terms->within : first_arrival + terms->within;
}

bool worse(const PlanOrder& order, const ParcelSupply& a, const ParcelSupply& b) {
    if (order.terms) {
        const Merit of_a = merit_of(*order.terms, a);
        const Merit of_b = merit_of(*order.terms, b);
        if (of_a != of_b) {
            return better(of_b, of_a);
        }
    }
    if (holds(a) && holds(b) && doubts_of(a) != doubts_of(b)) {
        return doubts_of(a) > doubts_of(b);
    }
    return worse(a, b) || (is_cut_off(a) && !is_cut_off(b) && !worse(b, a));
}

bool leaves_a_doubt(const ParcelSupply& supply) {
    return holds(supply) && (supply.evidence == Evidence::assumed || gap_of(supply) > 0);
}

bool is_cut_off(const ParcelSupply& supply) {
    return supply.state == SupplyState::tank_only &&
           (supply.limit == Limit::no_route || supply.limit == Limit::fleet);
}

bool content_with(const PlanOrder& order, const ParcelSupply& supply) {
    if (!order.terms) {
        return supply.cautious > HeldFlow{};
    }
    const Merit merit = merit_of(*order.terms, supply);
    return merit.begins && *merit.begins <= latest_begin(*order.terms, supply) && merit.gap <= 0;
}

std::optional<std::int32_t> begins_at(const ParcelSupply& supply) {
    if (!supply.earliest_start) {
        return std::nullopt;
    }
    return in_tenths(
        std::max(*supply.earliest_start, supply.tank_water.value_or(*supply.earliest_start)));
}

HeldFlow creditable(const ParcelSupply& supply) {
    return supply.mode == SupplyMode::shuttle ? std::min(supply.cautious, supply.handbook)
                                              : supply.cautious;
}

}  // namespace farwater::supply
