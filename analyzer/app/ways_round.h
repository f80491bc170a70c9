// The ways of those whose fastest one runs over their own hose or past the burning house.
#pragma once

#include <span>
#include <tuple>
#include <vector>

#include "analyzer/app/routes_in_use.h"
#include "analyzer/app/ways_over_hose.h"
#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"

namespace farwater::app {

// The order of RoutesInUse::routes.
struct InRouteOrder {
    bool operator()(const WantedRoute& a, const WantedRoute& b) const { return key(a) < key(b); }
    static std::tuple<SeasonIndex, DumpSiteIndex, RouteKind, SourceIndex, StationIndex,
                      ProfileIndex, std::uint32_t>
    key(const WantedRoute& wanted) {
        return {wanted.season,  wanted.dump_site, wanted.kind,     wanted.source,
                wanted.station, wanted.profile,   wanted.lane_case};
    }
};
// Precondition: it is there, and the routes are in order.
std::uint32_t number_of(const std::vector<RouteInUse>& routes, const WantedRoute& wanted);

// Gives every place its routes there and back: those of its use, or, where they run over its hose,
// the ways round, which are looked for. Routes that nobody drives are left out, and the numbers of
// routes are then others. Stopped early: not complete.
void send_round(const AnswersGiven& answers, const WaysOverHose& over_hose,
                std::span<const ShuttleUse> uses, RoutesInUse& routes, const Work& work);

}  // namespace farwater::app
