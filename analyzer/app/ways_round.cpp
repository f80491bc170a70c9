#include "analyzer/app/ways_round.h"

#include <algorithm>
#include <utility>

#include "routing/blocked_ways.h"
#include "routing/route_lines.h"

namespace farwater::app {
namespace {

// The drive of a use while its hose lies.
WantedRoute round_of(const AnswersGiven& answers, std::uint32_t place, WantedRoute wanted) {
    wanted.lane_case =
        routing::lane_case_of(answers.dump_sites, place, wanted.dump_site)
            .value_or(WantedRoute::nothing_closed);  // it is there: the way runs over its hose
    wanted.at_most = leg_time(answers, wanted, answers.assessment.supplies[place].approach);
    return wanted;
}

// The drives of each use, as they are wanted in the end.
struct WantedOfUse {
    WantedRoute loaded, empty;
};

std::vector<WantedOfUse> wanted_in_the_end(const AnswersGiven& answers, const WaysOverHose& over,
                                           std::span<const ShuttleUse> uses,
                                           const std::vector<RouteInUse>& routes) {
    std::vector<WantedOfUse> wanted;
    wanted.reserve(uses.size());
    for (std::size_t i = 0; i < uses.size(); ++i) {
        WantedOfUse of{routes[uses[i].loaded].wanted, routes[uses[i].empty].wanted};
        of.loaded = over.loaded_over(i) ? round_of(answers, uses[i].place, of.loaded) : of.loaded;
        of.empty = over.empty_over(i) ? round_of(answers, uses[i].place, of.empty) : of.empty;
        wanted.push_back(of);
    }
    return wanted;
}

bool goes_round(const WantedRoute& wanted) {
    return wanted.lane_case != WantedRoute::nothing_closed;
}

// Each different way round once.
std::vector<RouteInUse> ways_round(const AnswersGiven& answers,
                                   const std::vector<WantedOfUse>& of_uses, const Work& work) {
    std::vector<WantedRoute> wanted;
    for (const WantedOfUse& of : of_uses) {
        for (const WantedRoute& drive : {of.loaded, of.empty}) {
            if (goes_round(drive)) {
                wanted.push_back(drive);
            }
        }
    }
    std::ranges::sort(wanted, InRouteOrder{});
    const auto rest = std::ranges::unique(wanted, [](const WantedRoute& a, const WantedRoute& b) {
        return InRouteOrder::key(a) == InRouteOrder::key(b);
    });
    wanted.erase(rest.begin(), rest.end());
    std::vector<RouteLine> lines =
        routing::route_lines(answers.roads, answers.dump_sites, wanted, work);
    std::vector<RouteInUse> routes;
    routes.reserve(wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        routes.push_back({wanted[i], std::move(lines[i]), 0});
    }
    return routes;
}

void count_uses(const std::vector<WantedOfUse>& of_uses, std::vector<RouteInUse>& routes) {
    for (RouteInUse& route : routes) {
        route.served = route.wanted.kind == RouteKind::response ? route.served : 0;
    }
    for (const WantedOfUse& of : of_uses) {
        ++routes[number_of(routes, of.loaded)].served;
        ++routes[number_of(routes, of.empty)].served;
    }
}

}  // namespace

std::uint32_t number_of(const std::vector<RouteInUse>& routes, const WantedRoute& wanted) {
    const auto found =
        std::ranges::lower_bound(routes, wanted, InRouteOrder{}, &RouteInUse::wanted);
    return static_cast<std::uint32_t>(found - routes.begin());
}

void send_round(const AnswersGiven& answers, const WaysOverHose& over_hose,
                std::span<const ShuttleUse> uses, RoutesInUse& routes, const Work& work) {
    const std::vector<WantedOfUse> of_uses =
        wanted_in_the_end(answers, over_hose, uses, routes.routes);
    std::vector<WantedRoute> responses(routes.of.size());
    for (std::size_t place = 0; place < routes.of.size(); ++place) {
        if (routes.of[place].response != RoutesInUse::none) {
            responses[place] = routes.routes[routes.of[place].response].wanted;
        }
    }
    std::vector<RouteInUse> round = ways_round(answers, of_uses, work);
    routes.routes.insert(routes.routes.end(), std::make_move_iterator(round.begin()),
                         std::make_move_iterator(round.end()));
    std::ranges::sort(routes.routes, InRouteOrder{}, &RouteInUse::wanted);
    count_uses(of_uses, routes.routes);
    std::erase_if(routes.routes, [](const RouteInUse& route) { return route.served == 0; });
    for (std::size_t i = 0; i < uses.size(); ++i) {
        if (uses[i].further) {
            continue;
        }
        RoutesInUse::OfPlace& of = routes.of[uses[i].place];
        of.loaded = number_of(routes.routes, of_uses[i].loaded);
        of.empty = number_of(routes.routes, of_uses[i].empty);
        of.response = number_of(routes.routes, responses[uses[i].place]);
        of.goes_round = goes_round(of_uses[i].loaded) || goes_round(of_uses[i].empty);
    }
}

}  // namespace farwater::app
