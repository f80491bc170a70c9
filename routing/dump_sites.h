// Where dump sites can be, and which of them hose connects with which house.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/work/work.h"
#include "routing/access.h"
#include "routing/network.h"

namespace farwater::routing {

inline constexpr std::size_t most_hose_lays = 8;  // kept per parcel

struct DumpSites {
    std::vector<DumpSiteCandidate>
        candidates;  // lane class: in the worst of the seasons; RoundTrips has the season's own
    std::vector<RoadSpot> spots;  // the same on the network
    Lists<HoseLay> hose_lays;     // per parcel, then per target, as RoundTrips has them
};

// The candidates with the lane classes that these through edges give (lanes.h); what the officer
// says of a place of his own stands above it.
std::vector<DumpSiteCandidate> with_lanes(const District& district, const Network& network,
                                          std::vector<DumpSiteCandidate> candidates,
                                          std::span<const RoadSpot> spots,
                                          std::span<const std::uint8_t> through);

// Candidates are the officer's places that a road reaches, then junctions, ends and points along
// the roads that some loaded tanker may use in some season, dump_site_spacing apart along the road
// or more; not on a bridge or in a tunnel and not within 100 ft of a road with a rail crossing. A
// parcel that none of them serves gets the nearest place that could, to a quarter of the spacing,
// so that thinning takes no parcel's supply away. Only the officer's places and candidates that
// serve somebody are kept, in spatial order.
//
// Hose lies from the dump site along roads of every class, closed ones too, to the access point and
// on to the house: the parcel's own setback, or straight distance x setback_factor + setback_extra,
// where the straight distance is at most off_road_hose. The whole is at most hose_reach, and the
// dump site at least standoff from the house. The officer's places come first, then by length, then
// by index; at most most_hose_lays. Lengths are whole millimetres along each road piece. Stopped
// early: what it returns is not complete.
DumpSites find_dump_sites(const District& district, const Network& network, const Access& access,
                          std::span<const Profile> profiles, const Work& work);

}  // namespace farwater::routing
