#include "analyzer/app/ways_over_hose.h"

#include <algorithm>
#include <utility>

#include "routing/blocked_ways.h"

namespace farwater::app {
namespace {

// Responses end at the dump site before hose is laid.
Lists<std::uint32_t> uses_by_route(std::span<const ShuttleUse> uses, std::size_t routes) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    for (std::uint32_t use = 0; use < uses.size(); ++use) {
        pairs.emplace_back(uses[use].loaded, use);
        pairs.emplace_back(uses[use].empty, use);
    }
    std::ranges::sort(pairs);
    Lists<std::uint32_t> lists;
    auto pair = pairs.begin();
    for (std::uint32_t route = 0; route < routes; ++route) {
        for (; pair != pairs.end() && pair->first == route; ++pair) {
            lists.items.push_back(pair->second);
        }
        lists.close_row();
    }
    return lists;
}

}  // namespace

WaysOverHose::WaysOverHose(const AnswersGiven& answers, std::span<const ShuttleUse> uses,
                           std::span<const RouteInUse> routes)
    : answers_(answers),
      uses_(uses),
      routes_(routes),
      uses_of_(uses_by_route(uses, routes.size())),
      loaded_(uses.size(), 0),
      empty_(uses.size(), 0) {}

bool WaysOverHose::over_hose(const routing::Way& way, std::uint32_t place,
                             DumpSiteIndex dump_site) const {
    const auto lane_case = routing::lane_case_of(answers_.dump_sites, place, dump_site);
    return lane_case &&
           routing::HoseOnRoads(answers_.roads.network, answers_.dump_sites, *lane_case)
               .bars_any(way);
}

void WaysOverHose::look(std::size_t route, const routing::Way& way) {
    const WantedRoute& wanted = routes_[route].wanted;
    std::vector<std::uint8_t>& marks = wanted.kind == RouteKind::loaded ? loaded_ : empty_;
    for (const std::uint32_t use : uses_of_[route]) {
        marks[use] = over_hose(way, uses_[use].place, wanted.dump_site) ? 1 : 0;
    }
}

}  // namespace farwater::app
