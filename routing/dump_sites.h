// Where dump sites can be, and which of them hose connects with which house.
#pragma once

#include <compare>
#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/network.h"

namespace farwater::routing {

inline constexpr std::size_t most_hose_lays = 8;  // kept per parcel, beside those from own places

// On which sides of a dump site inside a closed edge the hose may lie: towards the edge's start and
// its end. Both where the dump site is at a junction: it is told by the edges then.
struct HoseSides {
    bool before = true;
    bool behind = true;
    friend auto operator<=>(const HoseSides&, const HoseSides&) = default;
};

// What decides the lane class of a hose lay, and which ways its dump site has: its dump site, and
// the edges that are closed while it is in use (under the hose and in front of the house). Each
// case once.
struct LaneCases {
    std::vector<std::uint32_t> site;    // per case: the dump site
    std::vector<HoseSides> sides;       // per case
    Lists<EdgeIndex> closed;            // per case, ascending
    std::vector<std::uint32_t> of_lay;  // per item of DumpSites::hose_lays: its case
};

struct DumpSites {
    std::vector<DumpSiteCandidate> candidates;  // lane classes are a season's (season_lanes.h)
    std::vector<RoadSpot> spots;                // the same on the network
    Lists<HoseLay> hose_lays;  // per parcel, then per target, as RoundTrips has them, but for lanes
    LaneCases lane_cases;
};

// Candidates are the officer's places that a road reaches, then junctions, ends and points along
// the roads that some loaded tanker may use in some season, dump_site_spacing apart along the road
// or more; level (level_stretches.h), not on a bridge or in a tunnel and not within 100 ft of a
// road with a rail crossing. A parcel gets places of its own where thinning would take supply away:
// the nearest from each side of the house, and junctions where tankers drive through while its hose
// lies; and the nearest that some loaded tanker gets to in every season, where the others are no
// such (sites/own_places.h). Only the officer's places and candidates that serve somebody are kept,
// in spatial order.
//
// Hose lies from the dump site along roads of every class, closed ones too, to the access point and
// on to the house: the parcel's own setback (not where its drive is drawn), or straight distance x
// setback_factor + setback_extra, where the straight distance is at most off_road_hose. The whole
// is at most hose_reach, and the dump site at least standoff from the house. The officer's places
// come first, then by length, then by index; at most most_hose_lays beside the own ones, among them
// the first from the other side of the house and the first where some loaded tanker may go in every
// season, however many are nearer. Lengths
// are whole millimetres along each road piece. Stopped early: what it returns is not complete.
//
// `asked`: per parcel, then per target, whether anybody asks for its water. Hose is laid to no
// other one: land without a building.
DumpSites find_dump_sites(const District& district, const Network& network, const Access& access,
                          std::span<const Profile> profiles, const std::vector<bool>& asked,
                          const Work& work);

// Places of the officer's own where no candidate would be: place_unfit, by place. They are used.
std::vector<Problem> unfit_places(const District& district, const Network& network,
                                  const Access& access, std::span<const Profile> profiles);

}  // namespace farwater::routing
