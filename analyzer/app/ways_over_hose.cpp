#include "analyzer/app/ways_over_hose.h"

#include <numeric>

#include "routing/blocked_ways.h"

namespace farwater::app {
namespace {

// Responses end at the dump site before hose is laid.
Lists<std::uint32_t> uses_by_route(std::span<const ShuttleUse> uses, std::size_t routes) {
    Lists<std::uint32_t> lists;
    lists.begin.assign(routes + 1, 0);
    for (const ShuttleUse& use : uses) {
        ++lists.begin[use.loaded + 1];
        ++lists.begin[use.empty + 1];
    }
    std::partial_sum(lists.begin.begin(), lists.begin.end(), lists.begin.begin());
    lists.items.resize(uses.size() * 2);
    std::vector<std::uint32_t> next(lists.begin.begin(), lists.begin.end() - 1);
    for (std::uint32_t use = 0; use < uses.size(); ++use) {
        lists.items[next[uses[use].loaded]++] = use;
        lists.items[next[uses[use].empty]++] = use;
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
