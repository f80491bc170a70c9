#include "routing/route_lines.h"

#include <algorithm>
#include <memory>
#include <tuple>
#include <utility>

#include "analyzer/district/sorted_once.h"
#include "routing/blocked_ways.h"
#include "routing/driving/travel_rule.h"
#include "routing/fastest_ways.h"
#include "routing/search/costed_roads.h"
#include "routing/speeds.h"
#include "routing/structures/pool.h"
#include "routing/trips/closed_ways.h"

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

std::vector<std::uint32_t> by_search(std::span<const RouteInUse> routes) {
    std::vector<std::uint32_t> order(routes.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::ranges::stable_sort(order, {},
                             [&](std::uint32_t i) { return same_search(routes[i].wanted); });
    return order;
}

// Where runs of equal keys begin in the order, and the end.
template <class Key>
std::vector<std::size_t> run_begins(std::span<const RouteInUse> routes,
                                    std::span<const std::uint32_t> order, Key key) {
    std::vector<std::size_t> begins;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (i == 0 || key(routes[order[i]].wanted) != key(routes[order[i - 1]].wanted)) {
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

void add_line(const CostedRoads& driven, const Way& way, RouteLine& route) {
    Polyline line;
    std::vector<RoadIndex> roads;
    for (const Stretch stretch : way) {
        const Edge& edge = at(driven.network().edges, stretch.edge);
        append_part(at(driven.district().roads, edge.road).line, edge.begin + stretch.from,
                    edge.begin + stretch.to, line);
        if (roads.empty() || roads.back() != edge.road) {
            roads.push_back(edge.road);
        }
    }
    if (line.size() == 1) {
        line.clear();
    }
    line.shrink_to_fit();  // there are thousands, kept until they are written
    roads.shrink_to_fit();
    route.line = std::move(line);
    route.roads = std::move(roads);
}

// Roads at a default speed count, bridges without a posted weight are listed.
MarksOfRoad marks_for(const CostedRoads& driven) {
    return [&driven](RoadIndex index) {
        const Road& road = at(driven.district().roads, index);
        const PlanningSpeed speed = planning_speed(road, driven.profile(), driven.season(),
                                                   driven.load(), driven.district().assumptions);
        return RoadMarks{!speed.posted, road.bridge && !road.weight_limit};
    };
}

DriveTime time_of(const TravelRule& rule, RouteKind kind, std::int32_t cost) {
    return kind == RouteKind::response ? rule.response(cost) : rule.leg(cost);
}

// Of a way that is known stretch by stretch: all but its line.
RouteLine line_of(const CostedRoads& driven, const Way& way, RouteKind kind) {
    const MarksOfRoad marks = marks_for(driven);
    const TravelTime model = driven.district().travel_time;
    WayMeasure sum{0, 0, 0};
    std::vector<RoadIndex> unposted_bridges;
    RouteLine route;
    for (const Stretch& stretch : way) {
        const Edge& edge = at(driven.network().edges, stretch.edge);
        const auto [low, high] = std::minmax(stretch.from, stretch.to);
        const std::int32_t cost = stretch_cost(driven.network(), driven.costs(), stretch.edge,
                                               stretch.to > stretch.from, low, high);
        const RoadMarks of_road = marks(edge.road);
        sum.time += cost;
        sum.millimetres +=
            part_of(millimetres(edge.length()), high - low, in_metres(edge.length()));
        sum.counted += of_road.counts ? cost : 0;
        if (of_road.listed) {
            unposted_bridges.push_back(edge.road);
        }
    }
    route.unposted_bridges = sorted_once(std::move(unposted_bridges));
    route.time = time_of(TravelRule(model), kind, sum.time);
    route.on_defaults =
        model == TravelTime::road_speeds ? tenths_of_second(sum.counted) : route.time;
    route.length = metres(static_cast<double>(sum.millimetres) / 1e3);
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
    RouteFinder(const RoadSystem& roads, const DumpSites& dump_sites, std::span<RouteInUse> routes,
                const OnWay& on_way)
        : roads_(roads),
          dump_sites_(dump_sites),
          routes_(routes),
          on_way_(on_way),
          searches_(searches_for(roads.network)),
          closed_([&network = roads.network] { return std::make_unique<ClosedWays>(network); }) {}

    void find(std::span<const std::uint32_t> trips, const Work& work) {
        const WantedRoute& first = wanted(trips.front());
        const Load load = load_of(first.kind);
        const CostedRoads driven(roads_, first.profile, first.season, load,
                                 load == Load::loaded ? Heading::away : Heading::towards);
        const auto begins = run_begins(routes_, trips, same_search);
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

    const WantedRoute& wanted(std::uint32_t trip) const { return routes_[trip].wanted; }

    void search(const CostedRoads& driven, FastestWays& ways,
                std::span<const std::uint32_t> trips) {
        const RoadSpot start = start_of(roads_, wanted(trips.front()));
        if (!start.valid()) {
            return;
        }
        std::int32_t limit = 0;
        for (const std::uint32_t trip : trips) {
            limit = std::max(limit, limit_of(roads_, wanted(trip)));
        }
        const MarksOfRoad marks = marks_for(driven);
        ways.search(driven.roads(), start, limit, &marks);
        const Pool<ClosedWays>::Borrowed closed(closed_);
        for (const std::uint32_t trip : trips) {
            RouteLine& found = routes_[trip].way;
            if (wanted(trip).lane_case != WantedRoute::nothing_closed) {
                found = way_round(driven, ways, *closed, trip);
                continue;
            }
            found = route(driven, ways, wanted(trip));
            if (on_way_ && reachable(found.time)) {
                on_way_(trip,
                        ways.way(at(dump_sites_.spots, wanted(trip).dump_site)).value_or(Way{}));
            }
        }
    }

    RouteLine route(const CostedRoads& driven, FastestWays& ways, const WantedRoute& wanted) const {
        const RoadSpot site = at(dump_sites_.spots, wanted.dump_site);
        const WayMeasure measure = ways.measure(site);
        RouteLine route;
        if (measure.time > limit_of(roads_, wanted)) {
            return route;
        }
        const TravelTime model = driven.district().travel_time;
        route.time = time_of(TravelRule(model), wanted.kind, measure.time);
        // A linear rule knows no posted speed: all of its time rests on a default.
        route.on_defaults =
            model == TravelTime::road_speeds ? tenths_of_second(measure.counted) : route.time;
        route.length = metres(static_cast<double>(measure.millimetres) / 1e3);
        route.unposted_bridges = ways.listed(site);
        if (wanted.with_line) {
            add_line(driven, ways.way(site).value_or(Way{}), route);
        }
        return route;
    }

    // While the hose of a lane case lies.
    RouteLine way_round(const CostedRoads& driven, const FastestWays& ways, ClosedWays& closed,
                        std::uint32_t trip) const {
        const WantedRoute& drive = wanted(trip);
        const HoseOnRoads hose(driven.network(), dump_sites_, drive.lane_case);
        const auto way =
            closed.way({ways.roads(), ways.spot(), ways.searched()}, hose, limit_of(roads_, drive));
        if (!way) {
            return {};
        }
        if (on_way_) {
            on_way_(trip, *way);
        }
        RouteLine route = line_of(driven, *way, drive.kind);
        if (drive.with_line) {
            add_line(driven, *way, route);
        }
        return route;
    }

    const RoadSystem& roads_;
    const DumpSites& dump_sites_;
    std::span<RouteInUse> routes_;  // each search writes its own
    const OnWay& on_way_;
    Pool<FastestWays> searches_;
    Pool<ClosedWays> closed_;
};

}  // namespace

void find_ways(const RoadSystem& roads, const DumpSites& dump_sites, std::span<RouteInUse> routes,
               const Work& work, const OnWay& on_way) {
    const std::vector<std::uint32_t> order = by_search(routes);
    const std::vector<std::size_t> begins = run_begins(routes, order, same_costs);
    RouteFinder finder(roads, dump_sites, routes, on_way);
    for (std::size_t i = 0; i + 1 < begins.size() && !work.stopped(); ++i) {
        finder.find(std::span(order).subspan(begins[i], begins[i + 1] - begins[i]), work);
    }
}

std::vector<RouteLine> route_lines(const RoadSystem& roads, const DumpSites& dump_sites,
                                   std::span<const WantedRoute> wanted, const Work& work,
                                   const OnWay& on_way) {
    std::vector<RouteInUse> routes;
    for (const WantedRoute& one : wanted) {
        routes.push_back({one, {}, 0});
    }
    find_ways(roads, dump_sites, routes, work, on_way);
    std::vector<RouteLine> found;
    for (RouteInUse& route : routes) {
        found.push_back(std::move(route.way));
    }
    return found;
}

}  // namespace farwater::routing
