// Places for a dump site that a house gets of its own, where the spaced sites leave it without.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "routing/costs.h"
#include "routing/network.h"
#include "routing/sites/drive_through.h"
#include "routing/sites/hose_paths.h"
#include "routing/sites/site_rules.h"

namespace farwater::routing {

// A parcel's house or a target while its lays are sought.
struct HouseOnRoad {
    std::uint32_t served = 0;  // its number
    RoadSpot spot;             // of its access point
    Point house;
    std::int32_t reach = 0;  // millimetres of hose that are left after the setback
};

// Whether the site stands `standoff` or more from the house, in a straight line.
bool stands_off(const District& district, const HouseOnRoad& house, Point site);

// Where the hose of a lay comes from, and whether tankers drive through its dump site meanwhile.
struct LayKind {
    HouseSide side;
    bool through = false;
};

struct OwnPlace {
    RoadSpot spot;
    std::int32_t along = 0;  // millimetres to the access point
    HouseSide side;
};

class OwnPlaces {
public:
    // All that is given must outlive it; `lengths` in millimetres, of every edge.
    OwnPlaces(const District& district, const Network& network, const EdgeCosts& lengths,
              const SiteRules& rules, const DriveThrough& drive_through);

    // Of a house that has lays of the `known` kinds from the spaced sites, within its reach:
    // - from each side and by each road at the first junction there, the nearest junction that
    //   tankers drive through while the hose lies, where no known lay is such;
    // - on each side that has no known lay from before its first junction or there, the nearest
    //   place, in steps of a quarter of the spacing; where none is so near, one on each road beyond
    //   that has no known lay. So there is a place on this side of the fire, from wherever tankers
    //   come.
    // Only where a site may be (site_rules.h). `paths` have begun at the house. O(places in reach).
    std::vector<OwnPlace> of(const HouseOnRoad& house, const HosePaths& paths,
                             std::span<const LayKind> known) const;

    // The nearest place where some loaded tanker may go in every season, within the house's reach;
    // none where there is none. O(places in reach).
    std::optional<OwnPlace> all_year_of(const HouseOnRoad& house, const HosePaths& paths) const;

private:
    std::vector<OwnPlace> drive_through_of(const HouseOnRoad& house, const HosePaths& paths,
                                           std::span<const LayKind> known) const;
    // By way, then, of equals, by where it is, whichever edge tells it.
    bool nearer(const OwnPlace& a, const OwnPlace& b) const;
    std::vector<OwnPlace> nearest_of(const HouseOnRoad& house, const HosePaths& paths) const;
    template <class Take>
    void each_place(const HouseOnRoad& house, const HosePaths& paths, Take take) const;
    template <class Take>
    void each_along(const HouseOnRoad& house, RoadSpot entered, std::int32_t way, Take take) const;
    // The site that a place would be; not valid where none may be.
    RoadSpot site_at(const HouseOnRoad& house, RoadSpot spot) const;

    const District& district_;
    const Network& network_;
    const EdgeCosts& lengths_;
    const SiteRules& rules_;
    const DriveThrough& drive_through_;
};

}  // namespace farwater::routing
