// Round trips of one season with what they were made of, for who wants to set more beside them.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "routing/drive_times.h"
#include "routing/trips/approaches.h"
#include "routing/trips/best_trips.h"

namespace farwater::routing {

struct SeasonTrips {
    RoundTrips trips;  // as round_trips has them
    Approaches approaches;
    // Per row of the approaches:
    std::unique_ptr<BestTrips> best;
    Lists<StationDrive> stations;
    KeptRows kept;
};

// All that is given must outlive it. Stopped early: not complete.
SeasonTrips season_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                         std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                         const Work& work);

// As round_trips (drive_times.h), which says a number that suits; `at_once` dump sites, 1 or more,
// are worked on together, which changes nothing but time and memory.
RoundTrips round_trips_by(const RoadSystem& roads, const DumpSites& dump_sites,
                          std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                          std::size_t at_once, const Work& work);

// Tankers by members, then the others: the order in which fill sites are ranked.
std::vector<ProfileIndex> in_order_of_rank(std::span<const Profile> profiles);

}  // namespace farwater::routing
