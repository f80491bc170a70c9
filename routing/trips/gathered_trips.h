// What is kept of round trips and station drives while they are worked out for some neighbouring
// dump sites after the others.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "routing/trips/approaches.h"
#include "routing/trips/best_trips.h"

namespace farwater::routing {

class GatheredTrips {
public:
    // Of so many dump sites in all, with legs of these profiles, and drives of the first so many.
    GatheredTrips(std::size_t dump_sites, const std::vector<ProfileIndex>& tankers,
                  std::size_t profiles)
        : dump_sites_(dump_sites), trips_(tankers), stations_(profiles) {}

    // Takes over what is kept of the next dump sites; `stations` per row.
    void add(const Approaches& approaches, const BestTrips& best,
             const Lists<StationDrive>& stations, const KeptRows& kept);

    // Puts the lists into the result, first those of the dump sites, and tells its hose lays which
    // approach is theirs. Precondition: all dump sites were added.
    void give(const DumpSites& dump_sites, RoundTrips& result) &&;

private:
    std::size_t dump_sites_;
    std::size_t approaches_ = 0;
    // Rows as they were added:
    FillTrips trips_;
    StationDrives stations_;

    std::vector<std::uint32_t> row_of_site_, row_of_approach_;
    std::vector<ApproachIndex> approach_of_;  // per lane case; not valid: as its dump site
};

}  // namespace farwater::routing
