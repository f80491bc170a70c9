#include "analyzer/supply/places/outdone.h"

#include <algorithm>

namespace farwater::supply {
namespace {

// None is no limit.
template <class Value>
bool as_much(const std::optional<Value>& a, const std::optional<Value>& b) {
    return !a || (b && *a >= *b);
}

bool no_later(const Arrival& a, const Arrival& b) {
    return a.unit == b.unit && a.leaves <= b.leaves && a.at_scene <= b.at_scene;
}

bool same_tankers(const Scene& a, const Scene& b) {
    return std::ranges::all_of(b.tankers, [&](const Arrival& tanker) {
        const auto there = std::ranges::find(a.tankers, tanker.unit, &Arrival::unit);
        return there != a.tankers.end() && no_later(*there, tanker);
    });
}

bool no_less_set_up(const DumpSite& a, const DumpSite& b) {
    return a.offload_slots >= b.offload_slots && as_much(a.storage, b.storage) &&
           as_much(a.flow_cap, b.flow_cap) && a.engine_tank >= b.engine_tank &&
           a.tanks_ready <= b.tanks_ready && a.draft_ready <= b.draft_ready &&
           a.single_file <= b.single_file;
}

// At every moment, for slots and whatever else waits for people.
bool no_fewer_people(const Scene& a, const Scene& b) {
    return std::ranges::all_of(b.people, [&](const PeopleFrom& those) {
        const auto there =
            std::ranges::lower_bound(a.people, those.people, {}, &PeopleFrom::people);
        return there != a.people.end() && there->from <= those.from;
    });
}

bool no_farther(const FillTrip& a, const FillTrip& b) {
    return a.fill_site == b.fill_site &&
           std::ranges::equal(a.legs, b.legs, [](const LegTimes& near, const LegTimes& far) {
               return near.empty <= far.empty && near.loaded <= far.loaded;
           });
}

}  // namespace

bool outdoes(const FillChoice& a, const FillChoice& b) {
    for (std::size_t t = 0; t < b.option.legs.size(); ++t) {
        const auto& near = a.option.legs[t];
        const auto& far = b.option.legs[t];
        if (far && !(near && near->empty <= far->empty && near->loaded <= far->loaded)) {
            return false;
        }
    }
    return a.site.places >= b.site.places && a.site.pump >= b.site.pump &&
           as_much(a.site.usable, b.site.usable) && a.site.inflow >= b.site.inflow &&
           a.site.ready <= b.site.ready && a.site.backing <= b.site.backing;
}

bool outdoes(const Situation& situation, const Scene& a, const Scene& b) {
    if (a.missing != Limit::none || b.missing != Limit::none) {
        const bool says_less = a.tankers.empty() && !b.tankers.empty();
        return b.missing != Limit::none && !says_less;
    }
    const auto trips_a = situation.trips.fill_trips[a.approach.position()];
    const auto trips_b = situation.trips.fill_trips[b.approach.position()];
    return (a.lane == b.lane || a.lane == LaneClass::through) &&
           std::ranges::equal(a.engines, b.engines, no_later) && same_tankers(a, b) &&
           no_less_set_up(a.set_up, b.set_up) && no_fewer_people(a, b) &&
           std::ranges::all_of(trips_b, [&](const FillTrip& far) {
               return std::ranges::any_of(
                   trips_a, [&](const FillTrip& near) { return no_farther(near, far); });
           });
}

}  // namespace farwater::supply
