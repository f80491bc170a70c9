// The answers of the parcels that share one case: what the shuttle gives, through each one's hose.
#pragma once

#include <map>
#include <optional>
#include <vector>

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

// All that is given must outlive it. Earliest starts and tankers short are kept by need.
class CaseAnswers {
public:
    CaseAnswers(const Situation& situation, const Scene& scene, const CasePlans& plans)
        : situation_(situation), scene_(scene), plans_(plans), by_need_(plans.size()) {}

    // By the plan that is best for this house (plan_order.h). Precondition: the lay is from the
    // scene's dump site.
    struct Answer {
        ParcelSupply supply;
        std::size_t plan = 0;  // its place among the plans
    };
    Answer answer_of(const HouseOnFire& fire, const HoseLay& lay);

private:
    struct KnownByNeed {
        std::map<HeldFlow, std::optional<TenthsMinute>> earliest;
        std::map<HeldFlow, std::uint8_t> more_tankers;
    };

    void describe(ParcelSupply& supply, const CasePlan& plan) const;
    void give(ParcelSupply& supply, std::size_t plan, HeldFlow line);
    void tell_more(ParcelSupply& supply, std::size_t plan, HeldFlow line);
    std::optional<TenthsMinute> earliest(std::size_t plan, HeldFlow needed);
    std::optional<TenthsMinute> earliest_of_any_up_to(std::size_t plan, HeldFlow needed);
    std::uint8_t more_tankers(std::size_t plan, HeldFlow needed);

    const Situation& situation_;
    const Scene& scene_;
    const CasePlans& plans_;
    std::vector<KnownByNeed> by_need_;  // per plan
};

}  // namespace farwater::supply
