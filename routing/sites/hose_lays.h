// Hose from dump sites to houses.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/network.h"
#include "routing/sites/drive_through.h"
#include "routing/sites/site_rules.h"

namespace farwater::routing {

// Hose from the access point to the house of a parcel, or to a target (numbered on after the
// parcels): the parcel's own, or, where it has none and where its drive is drawn, straight distance
// x setback_factor + setback_extra. None where no road is in reach or the straight distance is more
// than off_road_hose. Along a drawn drive hose is counted by the drive's line; the parcel's own
// setback, which holds that way already, is not added to it.
std::optional<Length> setback_of(const District& district, const Access& access,
                                 std::size_t served);

// A hose lay from one of the sites to the parcel (or target) `served`.
struct Lay {
    std::uint32_t served = 0;
    std::uint32_t site = 0;    // position in the list of sites
    std::int32_t along = 0;    // millimetres from the dump site to the access point
    std::uint32_t closed = 0;  // row of Lays::closed
};

// A hose lay from a place of the parcel's own (own_places.h).
struct OwnLay {
    std::uint32_t served = 0;
    std::int32_t along = 0;
    RoadSpot spot;
    std::uint32_t closed = 0;
};

// The lays of one parcel stand together, in the order of find_dump_sites; parcels in spatial order.
struct Lays {
    std::vector<Lay> from_sites;
    std::vector<OwnLay> own;
    // The road in front of the house and under the hose: no tanker passes while it is in use. By
    // edge.
    Lists<EdgeIndex> closed;
};

// The sites that serve a parcel's side of the house, for own places, are those within half of
// dump_site_spacing of hose along the road. `asked` as in find_dump_sites. Incomplete when stopped.
Lays find_hose_lays(const District& district, const Network& network, const Access& access,
                    const SiteRules& rules, const DriveThrough& drive_through,
                    std::span<const SitePlace> sites, const std::vector<bool>& asked,
                    const Work& work);

}  // namespace farwater::routing
