// Drive times: what the supply stage, the response clocks and the road layer ask of the network.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/dump_sites.h"
#include "routing/network.h"

namespace farwater::routing {

// What every question about driving is asked of. Only a view: the four values must outlive it.
struct RoadSystem {
    const District& district;
    const Network& network;
    const Access& access;
    std::span<const Profile> profiles;
};

// Round trips, station drives and lane classes of one season; the struct says what each holds.
// Exact to the point on the road, one-way respected, each leg at most trip_limit. Fill sites are
// ranked by the round trip of the tanker profile with the most members; a fill site where it has no
// way comes after those where it has, by the next profile. A station's to_gate is added to its
// drives (the limit holds for the drive within the data). The same for any number of threads.
// Bounded searches, two per fill site and tanker profile and one per station and profile, about
// 0.1 microseconds per node in reach. Stopped early: what it returns is not complete.
RoundTrips round_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                       std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                       const Work& work);

// A unit that leaves a station so long after the alarm (alarm handling, turnout).
struct Departure {
    StationIndex station;
    DriveTime offset{};
};

// Per parcel, then per target: when the first of these units is at the access point, loaded; or,
// where the road there may not be driven, at the nearest place (along the road) that may, if hose
// reaches from there (hose_reach less the setback, as for dump sites). no_time where none gets
// there within trip_limit of the last departure. to_gate is added. One search for all.
std::vector<DriveTime> first_arrivals(const RoadSystem& roads, ProfileIndex profile,
                                      std::span<const Departure> departures, SeasonIndex season);

// Per parcel, then per target: road miles from the nearest own station (shortest, not fastest) on
// roads that the profile may drive loaded, to the same place as first_arrivals, and on along the
// road to the access point. None where there is no way. Stations with a to_gate are left out: their
// miles are not known.
std::vector<std::optional<float>> station_miles(const RoadSystem& roads, ProfileIndex profile,
                                                SeasonIndex season);

// The units of one profile that leave so.
struct ProfileDepartures {
    ProfileIndex profile;
    std::vector<Departure> departures;
};

// The road_times layer. The first of the engines, of whatever profile, counts at a road's far end;
// no_time where none of them gets there, or none leaves. Speeds and the tanker's times are
// those of the tanker profile with the most members, or the first profile where there is no tanker.
RoadTimes road_times(const RoadSystem& roads, std::span<const ProfileDepartures> engines,
                     std::span<const FillSitePlace> fill_sites, SeasonIndex season);

}  // namespace farwater::routing
