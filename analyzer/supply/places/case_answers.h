// The answers of the parcels that share one case: what the shuttle gives, through each one's hose.
#pragma once

#include <map>
#include <optional>

#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/places/house_on_fire.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// The supply line from a dump site to the house.
struct HouseLine {
    hydraulics::HoseSize size = hydraulics::HoseSize::in_2_5;
    Length rise;  // from the dump site to the house; a fall counts as level
    Flow flow;
    bool hose_listed = false;  // long enough without the planning default
};
// None: no hose that is there is long enough.
std::optional<HouseLine> house_line(const Situation& situation, const Scene& scene, Point house,
                                    Length lay);

// All that is given must outlive it. Earliest starts and tankers short are kept
// by need.
class CaseAnswers {
public:
    CaseAnswers(const Situation& situation, const Scene& scene, const ShuttleCase& shuttle)
        : situation_(situation), scene_(scene), shuttle_(shuttle) {}

    // More than one fill site where that gives more. Precondition: the lay is from the scene's dump
    // site.
    ParcelSupply supply_of(const HouseOnFire& fire, const HoseLay& lay);

private:
    void describe(ParcelSupply& supply, const ShuttleCase& shuttle) const;
    void give(ParcelSupply& supply, const ShuttleCase& shuttle, HeldFlow line);
    void tell_more(ParcelSupply& supply, const ShuttleCase& shuttle, HeldFlow line);
    std::optional<TenthsMinute> earliest(const ShuttleCase& shuttle, HeldFlow needed);
    std::uint8_t more_tankers(const ShuttleCase& shuttle, HeldFlow needed);

    const Situation& situation_;
    const Scene& scene_;
    const ShuttleCase& shuttle_;
    std::map<HeldFlow, std::optional<TenthsMinute>> earliest_, earliest_of_several_;
    std::map<HeldFlow, std::uint8_t> more_tankers_, more_tankers_of_several_;
};

}  // namespace farwater::supply
