#include "analyzer/supply/places/nurse_at_house.h"

#include <algorithm>
#include <vector>

#include "analyzer/supply/unsaid.h"

namespace farwater::supply {
namespace {

// As at a dump site: by its own pump, no more than what tankers pump off.
bool can_feed(const Unit& unit, const Assumptions& assumptions) {
    return std::min(unit.pump.value_or(Flow{}), assumptions.nurse) >= assumptions.initial_attack;
}

Evidence evidence_of(const Situation& situation, UnitIndex tanker, bool hose_listed) {
    const District& district = situation.district;
    const Assumptions& assumptions = district.assumptions;
    const bool untimed =
        at(district.units, tanker).pump >= assumptions.nurse && !assumptions.is_given("nurse_gpm");
    return untimed || !hose_listed || comes_on_a_blank(district, tanker, situation.period)
               ? Evidence::assumed
               : Evidence::tested;
}

}  // namespace

std::optional<NurseAtHouse> nurse_at_house(const Situation& situation,
                                           std::span<const ProfileIndex> profile_of,
                                           std::span<const Responder> responders, std::size_t row,
                                           const HouseOnFire& fire, const HoseThere& spare) {
    const District& district = situation.district;
    const Assumptions& assumptions = district.assumptions;
    const std::span<const HoseLay> lays = situation.trips.hose_lays[row];
    if (lays.empty() || assumptions.initial_attack <= Flow{}) {
        return std::nullopt;
    }
    const HoseLay& lay = *std::ranges::min_element(lays, {}, &HoseLay::length);
    const auto size = spare.size_for(lay.length);
    if (!size) {
        return std::nullopt;
    }
    const std::vector<Arrival> tankers =
        arrivals(situation, profile_of, responders, UnitKind::tanker, fire.first_arrival,
                 [&](ProfileIndex profile, StationIndex station) {
                     return situation.trips.from_station(profile, station, lay.dump_site);
                 });
    const auto first = std::ranges::find_if(tankers, [&](const Arrival& tanker) {
        return can_feed(at(district.units, tanker.unit), assumptions);
    });
    if (first == tankers.end()) {
        return std::nullopt;
    }
    const Duration there = std::max(first->at_scene, fire.first_arrival);
    const bool listed = spare.listed[static_cast<std::size_t>(*size)] >= lay.length;
    return NurseAtHouse{
        .tanker = first->unit,
        .stands_at = lay.dump_site,
        .hose = lay.length,
        .there = there,
        .feeds_from = there + laying(lay.length, assumptions) + assumptions.nurse_hookup,
        .water = at(district.units, first->unit).tank * assumptions.delivered_fraction,
        .evidence = evidence_of(situation, first->unit, listed)};
}

Duration dry_before(Duration ready, Duration attack, Volume tank, Flow draws,
                    const std::optional<NurseAtHouse>& nurse) {
    const Duration empty = attack + tank / draws;
    if (!nurse || nurse->feeds_from >= ready) {
        return std::max(Duration{}, ready - empty);
    }
    const Duration waited = std::max(Duration{}, nurse->feeds_from - empty);
    const Duration lasts = std::max(empty, nurse->feeds_from) + nurse->water / draws;
    return waited + std::max(Duration{}, ready - lasts);
}

}  // namespace farwater::supply
