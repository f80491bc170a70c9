// Which of the many roadside places are worth a look as the place of a cistern: no run can be
// spent on every junction of a county.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

enum class PassedOver : std::uint8_t {
    no,
    strong_source_near,  // one that counts in every season and is no weaker
    nothing_missing_near,
    place_near,  // one that is looked at
    beyond_the_most,
};

// What thinning goes by, beside the assumptions of proposed cisterns.
struct CisternNeeds {
    std::span<const RoadsidePlace> places;
    std::span<const Gain> missing;  // per parcel: weighted shortfall, 0 where a source is no cure
    std::span<const Point> as_strong;  // places of sources and of the officer's ideas
};

// Per place what became of it. Places are taken one after the other, each the one that has most
// missing near it that none before it has near, until most_new_cisterns are; of equals the first.
// O(places x parcels near each) for each round that asks again, few of them.
std::vector<PassedOver> passed_over(const District& district, const CisternNeeds& needs);

// One clause each, with the assumption that decides.
std::string reason_of(PassedOver passed, const Assumptions& assumptions);

}  // namespace farwater::planning
