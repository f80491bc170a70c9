// One season and one period of a district, as the supply stage sees it.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/water_review.h"

namespace farwater::supply {

class KeptChoices;

// What is told of an answer; what is not costs no run.
enum class Told : std::uint8_t {
    everything,
    limit,  // all but build-up, gains by themselves and how many tankers more: what a rating prints
    flow,   // state, flow and how it is brought, without what limits it and with a tanker out; nor
            // the earliest start of what is held, but where there are terms
};

// What a whole run of cases shares: one season and one period. Only a view; all must outlive it.
struct Situation {
    const District& district;
    const WaterReview& water;
    std::span<const Profile> profiles;
    std::span<const AccessPoint> access;  // per parcel, then per target
    const RoundTrips& trips;
    std::span<const FillSitePlace> fill_places;
    PeriodIndex period;
    PlanOrder order = {};  // by which the best plan of each place is chosen
    Told told = Told::everything;
    bool one_more_engine = false;  // what if: engines_at (places/arrivals.h) says which and when
    KeptChoices* kept = nullptr;   // where choices of tankers are kept; null: nowhere
};

// The profile of each unit; not valid for units that have none.
std::vector<ProfileIndex> profile_of_units(const District& district,
                                           std::span<const Profile> profiles);

}  // namespace farwater::supply
