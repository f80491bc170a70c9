// Where parcels, sources, stations and the officer's places meet the roads.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/network.h"

namespace farwater::routing {

struct Access {
    std::vector<AccessPoint> points;  // per parcel, then per target, as RoundTrips has them
    std::vector<RoadSpot> spots;      // the same places on the network
    // On the nearest road that a vehicle may use; not valid where there is none in reach.
    std::vector<RoadSpot> sources;           // per WaterSource
    std::vector<RoadSpot> stations;          // per Station
    std::vector<RoadSpot> dump_site_places;  // per DumpSitePlace
    std::vector<RoadSpot> turnarounds;       // per Turnaround; none farther than 200 ft away
};

struct AccessResult {
    Access access;
    std::vector<Problem> problems;  // parcel_no_road_in_reach, parcel_no_usable_road (also of
                                    // targets), source_, station_ and place_no_road_in_reach,
                                    // turnaround_off_road
};

// The nearest place on a true segment within access_reach, exact:
// - of a parcel's house and a target: on a road of any class, since hose lies along private drives
//   too; but where no loaded tanker may use that road, on one that it may if that is no more than
//   frontage_slack farther, so that a corner is served from its better side. Of roads equally near,
//   one that a loaded tanker may use is taken, then one open both ways, then the better class;
// - of sources, the officer's places and turnarounds: on a road that some loaded tanker may use in
// some season;
// - of stations: on a road that some engine or tanker may use in some season.
// Where the fleet has no tanker, any profile stands in; without profiles the road's access decides.
// About 1 microsecond a parcel, on all threads. Stopped early: what it returns is not complete.
AccessResult find_access(const District& district, const Network& network,
                         std::span<const Profile> profiles, const Work& work);

// Of sources that are not the district's, as Access has those. The index of the roads is built for
// it: ask for many at once.
std::vector<RoadSpot> source_spots(const District& district, const Network& network,
                                   std::span<const Profile> profiles,
                                   std::span<const WaterSource> sources);

}  // namespace farwater::routing
