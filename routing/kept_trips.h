// The round trips of one season, kept so that it can be asked what further fill sites change: only
// their own trips are searched, and set among the others'.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"

namespace farwater::routing {

// A fill site beside those that there are, and where it meets the road (source_spots, access.h). Of
// no system and without a turnaround.
struct NewFillSite {
    const WaterSource& source;
    FillSitePlace place;
    RoadSpot spot;
};

// What was searched of one of them, for its season.
struct FoundTrips {
    struct Trip {
        std::uint32_t row = 0;  // of a dump site or an approach
        std::array<LegTimes, most_profiles> legs;
    };
    struct Hose {
        std::uint32_t served = 0;
        Length length;
    };
    FillSitePlace place;
    LaneClass lane = LaneClass::dead_end;
    std::vector<Trip> trips;  // by row: those that the lists there would take
    std::vector<StationDrive> stations;
    std::vector<Hose> hose;  // by parcel or target
    // Tankers that come from there change the lane class of some dump site: its trips are right,
    // but not all that it changes is told here.
    bool changes_lanes = false;
};

// Round trips with further fill sites behind the others, as far as some parcels and targets see
// them.
struct TripsInPart {
    // Rows of hose_lays, source_lays and of fill sites are those of all round trips. Approaches
    // have numbers of their own; of dump sites and approaches those that `served` look at have
    // lists. No station miles.
    RoundTrips trips;
    std::vector<std::uint32_t> served;  // ascending: whose lists are others
};

// All that is given must outlive it.
class KeptTrips {
public:
    // What `round_trips` costs. Stopped early: of no use.
    KeptTrips(const RoadSystem& roads, const DumpSites& dump_sites,
              std::vector<FillSitePlace> fill_sites, SeasonIndex season, const Work& work);
    ~KeptTrips();
    KeptTrips(KeptTrips&&) noexcept;
    KeptTrips& operator=(KeptTrips&&) noexcept;
    KeptTrips(const KeptTrips&) = delete;
    KeptTrips& operator=(const KeptTrips&) = delete;

    const RoundTrips& trips() const;  // as round_trips has them
    const std::vector<FillSitePlace>& fill_sites() const;

    // The parcels and targets, ascending, of which it may change the lists or lanes: all of which
    // `with` does, and some more, for closed roads are not looked at. Two searches for each tanker
    // profile. Also while others ask.
    std::vector<std::uint32_t> may_change(const NewFillSite& site) const;

    // Its trips with roads closed too, as round_trips searches them. Also while others ask.
    FoundTrips search(const NewFillSite& site) const;

    // Exactly what round_trips finds with them behind the fill sites that there are: of those that
    // are not in `served`, nothing that the supply looks at is another. Precondition: they are of
    // this season, and none of them changes lanes. O(rows) and what they change.
    TripsInPart with(std::span<const FoundTrips* const> more) const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace farwater::routing
