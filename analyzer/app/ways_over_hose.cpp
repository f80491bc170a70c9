#include "analyzer/app/ways_over_hose.h"

#include <algorithm>
#include <utility>

#include "routing/blocked_ways.h"

namespace farwater::app {
namespace {

// Responses end at the dump site before hose is laid.
Lists<std::uint32_t> places_by_route(const RoutesInUse& routes) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    for (std::uint32_t place = 0; place < routes.of.size(); ++place) {
        for (const std::uint32_t route : {routes.of[place].loaded, routes.of[place].empty}) {
            if (route != RoutesInUse::none) {
                pairs.emplace_back(route, place);
            }
        }
    }
    std::ranges::sort(pairs);
    Lists<std::uint32_t> places;
    auto pair = pairs.begin();
    for (std::uint32_t route = 0; route < routes.routes.size(); ++route) {
        for (; pair != pairs.end() && pair->first == route; ++pair) {
            places.items.push_back(pair->second);
        }
        places.close_row();
    }
    return places;
}

}  // namespace

WaysOverHose::WaysOverHose(const AnswersGiven& answers, const RoutesInUse& routes)
    : answers_(answers),
      routes_(routes),
      places_of_(places_by_route(routes)),
      loaded_(routes.of.size(), 0),
      empty_(routes.of.size(), 0) {}

bool WaysOverHose::over_hose(const routing::Way& way, std::uint32_t place,
                             DumpSiteIndex dump_site) const {
    const auto lane_case = routing::lane_case_of(answers_.dump_sites, place, dump_site);
    return lane_case && routing::runs_over_hose(answers_.roads.network, way,
                                                at(answers_.dump_sites.spots, dump_site),
                                                answers_.roads.access.spots[place],
                                                answers_.dump_sites.lane_cases.closed[*lane_case]);
}

void WaysOverHose::look(std::size_t route, const routing::Way& way) {
    const WantedRoute& wanted = routes_.routes[route].wanted;
    std::vector<std::uint8_t>& marks = wanted.kind == RouteKind::loaded ? loaded_ : empty_;
    for (const std::uint32_t place : places_of_[route]) {
        marks[place] = over_hose(way, place, wanted.dump_site) ? 1 : 0;
    }
}

void WaysOverHose::mark(std::vector<RoutesInUse::OfPlace>& places) const {
    for (std::size_t place = 0; place < places.size(); ++place) {
        places[place].over_hose = loaded_[place] != 0 || empty_[place] != 0;
    }
}

}  // namespace farwater::app
