// The ways of the trips that are driven in the end, as lines: asked for when the answers are known.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"
#include "routing/fastest_ways.h"

namespace farwater::routing {

// The fastest way of each wanted trip (of equals see fastest_ways.h), in their order; its time is
// that of round_trips, tenth for tenth, a station's drive without its to_gate. No way: a RouteLine
// without time. With a lane case the way is that of ClosedWays, as the approaches of round_trips
// have it. One search per start, no farther than its longest wanted way; memory O(wanted).
// Stopped early: what it returns is not complete.
// `on_way`, where it is given, is told each way that there is, by its place in the list; from
// several threads, no two at once for one trip.
//
// As a list of its own, which tests hold against their twins; the program has no room for it.
using OnWay = std::function<void(std::size_t trip, const Way& way)>;
std::vector<RouteLine> route_lines(const RoadSystem& roads, const DumpSites& dump_sites,
                                   std::span<const WantedRoute> wanted, const Work& work,
                                   const OnWay& on_way = {});

// The same into the routes themselves, which a county has a million of.
void find_ways(const RoadSystem& roads, const DumpSites& dump_sites, std::span<RouteInUse> routes,
               const Work& work, const OnWay& on_way = {});

}  // namespace farwater::routing
