#include "analyzer/supply/places/settled.h"

#include <algorithm>

#include "analyzer/supply/places/first_water.h"

namespace farwater::supply {
namespace {

// What the answer rests on and is not there at all; the district-wide reasons come first.
std::optional<ProblemId> unknown_because(const Situation& situation, std::size_t row) {
    const auto& units = situation.district.units;
    if (std::ranges::find(units, UnitKind::engine, &Unit::kind) == units.end()) {
        return ProblemId::fleet_without_engines;
    }
    const auto serves = [&](const CountedSource& source) { return source.is_for(row); };
    if (std::ranges::none_of(situation.water.counted, serves)) {
        return ProblemId::no_source_counts;
    }
    if (!situation.access[row].road.valid()) {
        return ProblemId::parcel_no_road_in_reach;
    }
    return std::nullopt;
}

ParcelSupply without_shuttle(const Need& need, SupplyState state, Limit limit) {
    ParcelSupply supply = unanswered(need);
    supply.state = state;
    supply.limit = limit;
    return supply;
}

// A house farther from the road than hose lies over land lacks hose; else it lacks a dump site.
Limit why_no_lay(const Situation& situation, std::size_t row) {
    const bool far = situation.access[row].off_road > situation.district.assumptions.off_road_hose;
    return far ? Limit::hose : Limit::no_dump_site;
}

ParcelSupply without_building() {
    ParcelSupply supply;
    supply.state = SupplyState::no_building;
    return supply;
}

}  // namespace

std::optional<ParcelSupply> settled(const Situation& situation, const std::optional<Need>& need,
                                    std::size_t row, DriveTime first_arrival) {
    if (!need) {
        return without_building();
    }
    if (const auto why = unknown_because(situation, row)) {
        ParcelSupply supply = without_shuttle(*need, SupplyState::unknown, Limit::none);
        supply.reason = why;
        return supply;
    }
    if (!reachable(first_arrival)) {
        return without_shuttle(*need, SupplyState::unreached, Limit::no_route);
    }
    if (situation.trips.hose_lays[row].empty()) {
        ParcelSupply supply =
            without_shuttle(*need, SupplyState::tank_only, why_no_lay(situation, row));
        const Duration arrives = duration_of(first_arrival);
        supply.first_engine = rounded_up(arrives);
        supply.tank_water = rounded_up(attack_begins(situation.district.assumptions, arrives));
        supply.wheels_gal = static_cast<float>(in_gallons(least_engine_tank(situation.district)));
        return supply;
    }
    return std::nullopt;
}

}  // namespace farwater::supply
