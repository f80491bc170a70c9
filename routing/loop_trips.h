// Round trips on which tankers never meet: out on some roads, back on others.
#pragma once

#include <algorithm>
#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/parallel/work.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"

namespace farwater::routing {

struct WantedLoop {
    static constexpr std::uint32_t nothing_closed = UINT32_MAX;

    SeasonIndex season;
    ProfileIndex profile;
    SourceIndex source;
    DumpSiteIndex dump_site;
    std::uint32_t lane_case = nothing_closed;  // of DumpSites::lane_cases: its edges are closed
    DriveTime plain = no_time;  // the fastest way out and back; no_time: twice the trip limit
};

// A loop that takes longer is none (common practice, no source: nobody would drive it).
constexpr DriveTime longest_loop(DriveTime plain) {
    return plain + std::max(tenths_of_second(in_tenths(plain) / 2), tenths_of_second(5 * 600));
}

struct LoopTrip {
    bool found = false;
    DriveTime empty{};   // dump site to fill site
    DriveTime loaded{};  // back
    Length length;       // of both
};

// Per wanted loop, in their order: the pair of ways of disjoint_pair.h, no longer than longest_loop
// as the mean of both directions. Whether there is any loop at all is known at once where
// no road is closed (edge-connected parts of the network), so a spur costs nothing. One search per
// fill site and a small one per loop. Stopped early: not complete.
std::vector<LoopTrip> loop_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                                 std::span<const WantedLoop> wanted, const Work& work);

}  // namespace farwater::routing
