// One fire at one dump site: who arrives when, what that gives the dump site, and the incidents
// that follow for each fill site. The same for all parcels that share dump site, arrival and zone.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/roster.h"
#include "analyzer/supply/water_review.h"

namespace farwater::supply {

// What a whole run of cases shares: one season and one period. Only a view; all must outlive it.
struct Situation {
    const District& district;
    const WaterReview& water;
    std::span<const Profile> profiles;
    std::span<const AccessPoint> access;  // per parcel, then per target
    const RoundTrips& trips;
    std::span<const FillSitePlace> fill_places;
    PeriodIndex period;
};

// The profile of each unit; not valid for units that have none.
std::vector<ProfileIndex> profile_of_units(const District& district,
                                           std::span<const Profile> profiles);

struct Arrival {
    UnitIndex unit;
    ProfileIndex profile;
    Duration leaves;    // the station, in minutes since the alarm
    Duration at_scene;  // the dump site
};

struct HoseThere {
    // Total length by size on the attack and the draft engine.
    std::array<Length, 4> length;
    // The largest size that is long enough, none = no size is.
    std::optional<hydraulics::HoseSize> size_for(Length lay) const;
};

// One engine, one job: the first to arrive attacks, the second drafts, the others may run a fill
// site. A scene without a drafting engine or without a portable tank gives no continuous flow.
struct Scene {
    DumpSiteIndex dump_site;
    LaneClass lane = LaneClass::dead_end;  // of the dump site while this hose is in use
    Duration first_arrival;                // of the first engine, at the house
    std::vector<Arrival> engines;          // by arrival
    std::vector<Arrival> tankers;          // by arrival
    HoseThere hose;
    DumpSite set_up;              // what the incident run takes
    Limit missing = Limit::none;  // why there can be no continuous flow; none = there can
    Volume on_wheels;             // in all tanks there by the horizon
};

Scene scene_at(const Situation& situation, std::span<const ProfileIndex> profile_of,
               std::span<const Responder> responders, DumpSiteIndex dump_site, LaneClass lane,
               Duration first_arrival);

// The incident with all tankers at one fill site; tankers that have no way there stay out. The
// reason instead when nobody can fill there: engines (none is left to run it) or no_route.
struct FillPlan {
    Incident incident;
    Limit missing = Limit::none;
    bool usable() const { return missing == Limit::none; }
};
FillPlan plan_with(const Situation& situation, const Scene& scene, const FillTrip& trip);

}  // namespace farwater::supply
