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

// Each different way round once, in order, nobody's yet.
std::vector<RouteInUse> ways_round(const AnswersGiven& answers, const WaysOverHose& over,
                                   std::span<const ShuttleUse> uses,
                                   const std::vector<RouteInUse>& routes, const Work& work) {
    std::vector<RouteInUse> round;
    const auto add = [&](const ShuttleUse& use, std::uint32_t route) {
        round.push_back({round_of(answers, use.place, routes[route].wanted), {}, 0});
    };
    for (std::size_t i = 0; i < uses.size(); ++i) {
        if (over.loaded_over(i)) {
            add(uses[i], uses[i].loaded);
        }
        if (over.empty_over(i)) {
            add(uses[i], uses[i].empty);
        }
    }
    std::ranges::sort(round, InRouteOrder{}, &RouteInUse::wanted);
    const auto rest = std::ranges::unique(round, [](const RouteInUse& a, const RouteInUse& b) {
        return InRouteOrder::key(a.wanted) == InRouteOrder::key(b.wanted);
    });
    round.erase(rest.begin(), rest.end());
    routing::find_ways(answers.roads, answers.dump_sites, round, work);
    return round;
}

// The drives of a use as places in the list of routes, or, where they go round, of ways round.
struct DriveInTheEnd {
    std::uint32_t number = 0;
    bool round = false;
};

class DrivesInTheEnd {
public:
    DrivesInTheEnd(const AnswersGiven& answers, const WaysOverHose& over,
                   std::span<const ShuttleUse> uses, const std::vector<RouteInUse>& routes,
                   const std::vector<RouteInUse>& round)
        : answers_(answers), over_(over), uses_(uses), routes_(routes), round_(round) {}

    DriveInTheEnd loaded(std::size_t use) const {
        return over_.loaded_over(use) ? way_round(use, uses_[use].loaded)
                                      : DriveInTheEnd{uses_[use].loaded, false};
    }
    DriveInTheEnd empty(std::size_t use) const {
        return over_.empty_over(use) ? way_round(use, uses_[use].empty)
                                     : DriveInTheEnd{uses_[use].empty, false};
    }

private:
    DriveInTheEnd way_round(std::size_t use, std::uint32_t route) const {
        return {number_of(round_, round_of(answers_, uses_[use].place, routes_[route].wanted)),
                true};
    }

    const AnswersGiven& answers_;
    const WaysOverHose& over_;
    std::span<const ShuttleUse> uses_;
    const std::vector<RouteInUse>& routes_;
    const std::vector<RouteInUse>& round_;
};

void count_uses(const DrivesInTheEnd& drives, std::size_t uses, std::vector<RouteInUse>& routes,
                std::vector<RouteInUse>& round) {
    for (RouteInUse& route : routes) {
        route.served = route.wanted.kind == RouteKind::response ? route.served : 0;
    }
    for (std::size_t i = 0; i < uses; ++i) {
        for (const DriveInTheEnd& drive : {drives.loaded(i), drives.empty(i)}) {
            ++(drive.round ? round : routes)[drive.number].served;
        }
    }
}

// Where routes and ways round are when they stand in one list, in order, without those that nobody
// drives.
struct NewNumbers {
    std::vector<std::uint32_t> of_route, of_round;

    std::uint32_t of(const DriveInTheEnd& drive) const {
        return (drive.round ? of_round : of_route)[drive.number];
    }
};

NewNumbers new_numbers(const std::vector<RouteInUse>& routes,
                       const std::vector<RouteInUse>& round) {
    NewNumbers numbers;
    numbers.of_route.reserve(routes.size());
    numbers.of_round.reserve(round.size());
    std::uint32_t next = 0;
    for (const RouteInUse& route : routes) {
        while (numbers.of_round.size() < round.size() &&
               InRouteOrder{}(round[numbers.of_round.size()].wanted, route.wanted)) {
            numbers.of_round.push_back(next++);
        }
        numbers.of_route.push_back(next);
        next += route.served > 0 ? 1 : 0;
    }
    while (numbers.of_round.size() < round.size()) {
        numbers.of_round.push_back(next++);
    }
    return numbers;
}

void put_together(std::vector<RouteInUse>& routes, std::vector<RouteInUse> round) {
    std::erase_if(routes, [](const RouteInUse& route) { return route.served == 0; });
    routes.insert(routes.end(), std::make_move_iterator(round.begin()),
                  std::make_move_iterator(round.end()));
    std::ranges::sort(routes, InRouteOrder{}, &RouteInUse::wanted);
}

}  // namespace

std::uint32_t number_of(const std::vector<RouteInUse>& routes, const WantedRoute& wanted) {
    const auto found =
        std::ranges::lower_bound(routes, wanted, InRouteOrder{}, &RouteInUse::wanted);
    return static_cast<std::uint32_t>(found - routes.begin());
}

void send_round(const AnswersGiven& answers, const WaysOverHose& over_hose,
                std::span<const ShuttleUse> uses, RoutesInUse& routes, const Work& work) {
    std::vector<RouteInUse> round = ways_round(answers, over_hose, uses, routes.routes, work);
    const DrivesInTheEnd drives(answers, over_hose, uses, routes.routes, round);
    count_uses(drives, uses.size(), routes.routes, round);
    const NewNumbers numbers = new_numbers(routes.routes, round);
    for (std::size_t i = 0; i < uses.size(); ++i) {
        if (uses[i].further) {
            continue;
        }
        const DriveInTheEnd loaded = drives.loaded(i);
        const DriveInTheEnd empty = drives.empty(i);
        RoutesInUse::OfPlace& of = routes.of[uses[i].place];
        of.loaded = numbers.of(loaded);
        of.empty = numbers.of(empty);
        of.response = numbers.of_route[of.response];
        of.goes_round = loaded.round || empty.round;
    }
    put_together(routes.routes, std::move(round));
}

}  // namespace farwater::app
