// The answers of the parcels that share one case: what the shuttle gives, through each one's hose.
#pragma once

#include <map>
#include <optional>

#include "analyzer/supply/assessment.h"
#include "analyzer/supply/house_on_fire.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/shuttle_case.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// All that is given must outlive it. Earliest starts are kept by need.
class CaseAnswers {
public:
    CaseAnswers(const Situation& situation, const Scene& scene, const ShuttleCase& shuttle)
        : situation_(situation), scene_(scene), shuttle_(shuttle) {}

    // Precondition: the lay is from the scene's dump site.
    ParcelSupply supply_of(const HouseOnFire& fire, const HoseLay& lay);

private:
    void describe(ParcelSupply& supply) const;
    void give(ParcelSupply& supply, HeldFlow line);
    std::optional<TenthsMinute> earliest(HeldFlow needed);

    const Situation& situation_;
    const Scene& scene_;
    const ShuttleCase& shuttle_;
    std::map<HeldFlow, std::optional<TenthsMinute>> earliest_;
};

}  // namespace farwater::supply
