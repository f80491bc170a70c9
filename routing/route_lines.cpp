#include "routing/route_lines.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <tuple>
#include <utility>

#include "routing/costed_roads.h"
#include "routing/fastest_ways.h"
#include "routing/pool.h"
#include "routing/speeds.h"
#include "routing/travel_rule.h"

namespace farwater::routing {
namespace {

Load load_of(RouteKind kind) { return kind == RouteKind::empty ? Load::empty : Load::loaded; }

// Trips of one season, profile and load: they share costs.
auto same_costs(const WantedRoute& wanted) {
    return std::tuple(wanted.season, wanted.profile, load_of(wanted.kind));
}

// Those from one start, or to it, share a search too.
auto same_search(const WantedRoute& wanted) {
    return std::tuple(same_costs(wanted), wanted.kind, wanted.source, wanted.station);
}

std::vector<std::uint32_t> by_search(std::span<const WantedRoute> wanted) {
    std::vector<std::uint32_t> order(wanted.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::ranges::stable_sort(order, {}, [&](std::uint32_t i) { return same_search(wanted[i]); });
    return order;
}

// Where runs of equal keys begin in the order, and the end.
template <class Key>
std::vector<std::size_t> run_begins(std::span<const WantedRoute> wanted,
                                    std::span<const std::uint32_t> order, Key key) {
    std::vector<std::size_t> begins;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (i == 0 || key(wanted[order[i]]) != key(wanted[order[i - 1]])) {
            begins.push_back(i);
        }
    }
    begins.push_back(order.size());
    return begins;
}

// Points of a road between two places along it, in the order from the first to the second.
void append_part(const Polyline& road, double from, double to, Polyline& line) {
    const double low = std::min(from, to);
    const double high = std::max(from, to);
    Polyline part{point_along(road, low)};
    double along = 0.0;
    for (std::size_t i = 1; i < road.size() && along < high; ++i) {
        along += in_metres(distance(road[i - 1], road[i]));
        if (along > low && along < high) {
            part.push_back(road[i]);
        }
    }
    part.push_back(point_along(road, high));
    if (to < from) {
        std::ranges::reverse(part);
    }
    for (const Point p : part) {
        const Point rounded = rounded_to_mm(p);
        if (line.empty() || line.back() != rounded) {
            line.push_back(rounded);
        }
    }
}

void append_stretch(const CostedRoads& driven, Stretch stretch, RouteLine& route) {
    const Edge& edge = at(driven.network().edges, stretch.edge);
    const Road& road = at(driven.district().roads, edge.road);
    const DriveTime time = tenths_of_second(cost_of(driven.network(), driven.costs(), stretch));
    const bool posted = planning_speed(road, driven.profile(), driven.season(), driven.load(),
                                       driven.district().assumptions)
                            .posted;
    route.on_defaults = posted ? route.on_defaults : route.on_defaults + time;
    route.length += metres(std::abs(stretch.to - stretch.from));
    append_part(road.line, edge.begin + stretch.from, edge.begin + stretch.to, route.line);
    if (route.roads.empty() || route.roads.back() != edge.road) {
        route.roads.push_back(edge.road);
    }
    if (road.bridge && !road.weight_limit) {
        route.unposted_bridges.push_back(edge.road);
    }
}

DriveTime time_of(const TravelRule& rule, RouteKind kind, std::int32_t cost) {
    return kind == RouteKind::response ? rule.response(cost) : rule.leg(cost);
}

// A linear rule knows no posted speed: all of its time rests on a default.
RouteLine line_of(const CostedRoads& driven, RouteKind kind, const Way& way) {
    const TravelTime model = driven.district().travel_time;
    RouteLine route;
    std::int32_t cost = 0;
    for (const Stretch stretch : way) {
        append_stretch(driven, stretch, route);
        cost = plus(cost, cost_of(driven.network(), driven.costs(), stretch));
    }
    route.time = time_of(TravelRule(model), kind, cost);
    if (model != TravelTime::road_speeds) {
        route.on_defaults = route.time;
    }
    std::vector<RoadIndex>& bridges = route.unposted_bridges;
    std::ranges::sort(bridges);
    const auto repeated = std::ranges::unique(bridges);
    bridges.erase(repeated.begin(), repeated.end());
    if (route.line.size() == 1) {
        route.line.clear();
    }
    return route;
}

RoadSpot start_of(const RoadSystem& roads, const WantedRoute& wanted) {
    return wanted.kind == RouteKind::response ? at(roads.access.stations, wanted.station)
                                              : at(roads.access.sources, wanted.source);
}

std::int32_t limit_of(const RoadSystem& roads, const WantedRoute& wanted) {
    const TravelRule rule(roads.district.travel_time);
    const std::int32_t tenths = reachable(wanted.at_most)
                                    ? in_tenths(wanted.at_most)
                                    : trip_limit_of(roads.district.assumptions);
    return wanted.kind == RouteKind::response ? rule.most_of_response(tenths)
                                              : rule.most_of_leg(tenths);
}

// The ways of a list of wanted trips that share their costs.
class RouteFinder {
public:
    RouteFinder(const RoadSystem& roads, const DumpSites& dump_sites,
                std::span<const WantedRoute> wanted, std::vector<RouteLine>& found)
        : roads_(roads),
          dump_sites_(dump_sites),
          wanted_(wanted),
          found_(found),
          searches_(searches_for(roads.network)) {}

    void find(std::span<const std::uint32_t> trips, const Work& work) {
        const WantedRoute& first = wanted_[trips.front()];
        const Load load = load_of(first.kind);
        const CostedRoads driven(roads_, first.profile, first.season, load,
                                 load == Load::loaded ? Heading::away : Heading::towards);
        const auto begins = run_begins(wanted_, trips, same_search);
        for_each_chunk(work, "route lines", begins.size() - 1, searches_a_chunk,
                       [&](std::size_t begin, std::size_t end) {
                           const Pool<FastestWays>::Borrowed ways(searches_);
                           for (std::size_t s = begin; s < end && !work.stopped(); ++s) {
                               search(driven, *ways,
                                      trips.subspan(begins[s], begins[s + 1] - begins[s]));
                           }
                       });
    }

private:
    static constexpr std::size_t searches_a_chunk = 8;

    void search(const CostedRoads& driven, FastestWays& ways,
                std::span<const std::uint32_t> trips) {
        const RoadSpot start = start_of(roads_, wanted_[trips.front()]);
        if (!start.valid()) {
            return;
        }
        std::int32_t limit = 0;
        for (const std::uint32_t trip : trips) {
            limit = std::max(limit, limit_of(roads_, wanted_[trip]));
        }
        ways.search(driven.roads(), start, limit);
        for (const std::uint32_t trip : trips) {
            const RoadSpot site = at(dump_sites_.spots, wanted_[trip].dump_site);
            const std::int32_t time = ways.measure(site).time;
            const auto way =
                time <= limit_of(roads_, wanted_[trip]) ? ways.way(site) : std::nullopt;
            if (way) {
                found_[trip] = line_of(driven, wanted_[trip].kind, *way);
            }
        }
    }

    const RoadSystem& roads_;
    const DumpSites& dump_sites_;
    std::span<const WantedRoute> wanted_;
    std::vector<RouteLine>& found_;  // each search writes its own trips
    Pool<FastestWays> searches_;
};

}  // namespace

std::vector<RouteLine> route_lines(const RoadSystem& roads, const DumpSites& dump_sites,
                                   std::span<const WantedRoute> wanted, const Work& work) {
    std::vector<RouteLine> found(wanted.size());
    const std::vector<std::uint32_t> order = by_search(wanted);
    const std::vector<std::size_t> begins = run_begins(wanted, order, same_costs);
    RouteFinder finder(roads, dump_sites, wanted, found);
    for (std::size_t i = 0; i + 1 < begins.size() && !work.stopped(); ++i) {
        finder.find(std::span(order).subspan(begins[i], begins[i + 1] - begins[i]), work);
    }
    return found;
}

}  // namespace farwater::routing
