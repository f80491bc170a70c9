// Hose from water sources to houses, for direct supply and relay.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/costs.h"
#include "routing/drive_times.h"
#include "routing/search/search.h"
#include "routing/search/spot_ends.h"

namespace farwater::routing {

// Hose from a place beside the road to a parcel or target.
struct HoseTo {
    std::uint32_t served = 0;
    std::int32_t along = 0;  // millimetres, without the setback
};

// The roads as hose lies along them from any place. All that is given must outlive it.
class HoseFromPlaces {
public:
    explicit HoseFromPlaces(const RoadSystem& roads);

    // All within relay_reach, setback apart; one may come more than once. Nothing where the spot is
    // not valid. The search is clear before and after.
    std::vector<HoseTo> from(Point place, RoadSpot spot, Search& search) const;

    // With the setback; none where there is no setback or it is beyond relay_reach then.
    std::optional<Length> whole(HoseTo hose) const;

    // Of those that end at one parcel or target, the shortest as a whole; none where there is none.
    std::optional<Length> shortest(std::span<const HoseTo> reached, std::size_t served) const;

private:
    const RoadSystem roads_;
    EdgeCosts lengths_;
    SearchGraph graph_;
    SpotEnds ends_;
    std::int32_t reach_;
};

// Per parcel, then per target: the nearest fill site of each strength class within relay_reach of
// hose, and all for the parcel alone, as RoundTrips::source_lays says. Hose lies from the source
// straight to its road, along roads and drives of every class, then the setback; where there is no
// setback (hose_lays.h) there is no lay. From a source for one parcel alone it may also lie
// straight over the owner's ground to the house, no farther than off_road_hose, counted as a
// setback is; the shorter way counts. Lengths along roads are whole millimetres. One bounded search
// per fill site. Incomplete when stopped.
Lists<SourceLay> find_source_lays(const RoadSystem& roads,
                                  std::span<const FillSitePlace> fill_sites, const Work& work);

}  // namespace farwater::routing
