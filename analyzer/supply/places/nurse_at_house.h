// A tanker that feeds the engine at the house from its own tank until hose from a source does.
#pragma once

#include <optional>
#include <span>

#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/places/hose_there.h"
#include "analyzer/supply/places/house_on_fire.h"

namespace farwater::supply {

struct NurseAtHouse {
    UnitIndex tanker;
    DumpSiteIndex stands_at;  // the nearest to the house that its hose reaches it from
    Length hose;              // from there to the engine
    Duration there;           // since the alarm; the engine is there too
    Duration feeds_from;      // then the hose is laid and coupled
    Volume water;             // all that it feeds: it goes for no second load
    Evidence evidence = Evidence::assumed;
};

// The first to get there that can pump what the initial attack draws; it comes before the hose from
// the source lies. None where nothing attacks, no tanker can, or `spare`, the hose that is not laid
// to the source, is too short. Of a row that hose reaches from a dump site; else none.
std::optional<NurseAtHouse> nurse_at_house(const Situation& situation,
                                           std::span<const ProfileIndex> profile_of,
                                           std::span<const Responder> responders, std::size_t row,
                                           const HouseOnFire& fire, const HoseThere& spare);

// Minutes without water before the hose from the source is `ready`, of an attack that begins then
// with the engine's own `tank`. Precondition: the attack draws something.
Duration dry_before(Duration ready, Duration attack, Volume tank, Flow draws,
                    const std::optional<NurseAtHouse>& nurse);

}  // namespace farwater::supply
