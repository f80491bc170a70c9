// Ways that would lead past the burning house or over the hose.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "routing/dump_sites.h"
#include "routing/fastest_ways.h"
#include "routing/network.h"

namespace farwater::routing {

// Where the hose lies as seen from a site inside an edge of `closed`, as the house's access point
// says; both sides where it may be either, and where the site is at a junction. O(closed).
HoseSides hose_sides(const Network& network, RoadSpot site, RoadSpot house,
                     std::span<const EdgeIndex> closed);

// What no vehicle passes while a hose lies: the closed edges of a lane case, those under the hose
// and that of the house's access point. On the dump site's own edge only the side where the hose
// lies is closed, any other edge from end to end. What only touches (a millimetre) passes.
class HoseOnRoads {
public:
    // Both must outlive it.
    HoseOnRoads(const Network& network, const DumpSites& dump_sites, std::uint32_t lane_case);

    RoadSpot site() const { return site_; }
    std::span<const EdgeIndex> closed() const { return closed_; }

    bool bars(EdgeIndex edge) const;  // from end to end; O(closed)
    bool bars(const Stretch& stretch) const;
    bool bars_any(const Way& way) const;

private:
    RoadSpot site_;
    bool inside_ = false;  // the site, its edge
    HoseSides sides_;
    std::span<const EdgeIndex> closed_;
};

// The case of the hose lay by which a parcel or target is served from a dump site; none where there
// is no such lay.
std::optional<std::uint32_t> lane_case_of(const DumpSites& dump_sites, std::size_t served,
                                          DumpSiteIndex dump_site);

}  // namespace farwater::routing
