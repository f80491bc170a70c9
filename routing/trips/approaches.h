// The ways to and from dump sites while hose lies, and which of them differ from the ways with no
// road closed.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/blocked_ways.h"
#include "routing/dump_sites.h"
#include "routing/network.h"
#include "routing/trips/best_trips.h"

namespace farwater::routing {

// Some neighbouring dump sites, counted from the first of them, with their approaches, one for each
// lane case. Rows of lists: first the dump sites, then the approaches.
class Approaches {
public:
    // To the dump sites from `begin` to before `end`. Network and dump sites must outlive it.
    Approaches(const Network& network, const DumpSites& dump_sites, std::size_t begin,
               std::size_t end);

    std::size_t dump_sites() const { return spots_.size(); }
    std::size_t rows() const { return first_.back(); }
    std::span<const RoadSpot> spots() const { return spots_; }  // of the dump sites

    // Of a dump site: rows from `begin` to before `end`.
    struct Range {
        std::uint32_t begin = 0, end = 0;
    };
    Range of(std::size_t dump_site) const { return {first_[dump_site], first_[dump_site + 1]}; }
    HoseOnRoads hose(std::uint32_t row) const { return {network_, sites_, lane_case_of(row)}; }
    std::uint32_t dump_site_of(std::uint32_t row) const;
    // The row of a lane case of one of the dump sites.
    std::uint32_t row_of(std::uint32_t lane_case) const {
        return static_cast<std::uint32_t>(dump_sites()) + lane_case - first_case_;
    }

private:
    std::uint32_t lane_case_of(std::uint32_t row) const {
        return first_case_ + row - static_cast<std::uint32_t>(dump_sites());
    }

    const Network& network_;
    const DumpSites& sites_;
    std::uint32_t begin_;  // the first dump site among all
    std::span<const RoadSpot> spots_;
    std::uint32_t first_case_;
    std::vector<std::uint32_t> first_;  // per dump site, and one more: its first row
};

// Rows that are as another one of their dump site, its own before all, are left out.
struct KeptRows {
    std::vector<std::uint32_t> rows;          // that are kept: first the dump sites
    std::vector<std::uint32_t> number_among;  // them, per row: of itself or the one it is like
};

// `stations` per row. `tankers` says which profiles count. Stopped early: not complete.
KeptRows rows_that_differ(const Approaches& approaches, const BestTrips& best,
                          const Lists<StationDrive>& stations,
                          std::span<const ProfileIndex> tankers, const Work& work);

// The same of one dump site, where trips are told by row: per row, its own first and then its
// approaches', the first row of those that is like it.
std::vector<std::uint32_t> first_alike_rows(
    const Approaches& approaches, std::uint32_t dump_site,
    const std::function<std::vector<FillTrip>(std::uint32_t row)>& trips_of,
    const Lists<StationDrive>& stations, std::span<const ProfileIndex> tankers);

}  // namespace farwater::routing
