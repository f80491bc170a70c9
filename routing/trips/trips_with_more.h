// Round trips with further fill sites, put together from those that are kept and what was found of
// the further ones.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "routing/dump_sites.h"
#include "routing/kept_trips.h"
#include "routing/trips/season_trips.h"

namespace farwater::routing {

// A view: all must outlive it.
struct KeptSeason {
    const SeasonTrips& trips;
    const DumpSites& dump_sites;
    std::span<const FillSitePlace> fill_sites;
    std::span<const ProfileIndex> tankers;      // in order of rank
    std::size_t most;                           // fill sites of a strength class
    const Lists<std::uint32_t>& served_by_row;  // who has a lay by it that is looked at
};

// As KeptTrips::with says.
TripsInPart set_among(const KeptSeason& season, std::span<const FoundTrips* const> more);

}  // namespace farwater::routing
