#include "routing/costs.h"

#include <algorithm>
#include <cmath>

namespace farwater::routing {
namespace {

std::int32_t usable_cost(DriveTime time) {
    return reachable(time) && in_tenths(time) <= most_cost ? in_tenths(time) : no_way;
}

// What one edge of a road costs a profile.
class EdgePrice {
public:
    EdgePrice(const District& district, const Network& network, Speed level, WeightPerPower vehicle)
        : network_(network),
          linear_(district.travel_time != TravelTime::road_speeds),
          level_(level),
          climb_(level, vehicle) {}

    std::int32_t operator()(std::size_t e, bool as_drawn) const {
        const Length length = network_.edges[e].length();
        if (linear_) {
            return std::max(millimetres(length), 1);  // no search goes round for nothing
        }
        const Duration delay = climb_.delay(network_.grades.of(e), length, as_drawn);
        return usable_cost(drive_time(length, level_, delay));
    }

private:
    const Network& network_;
    bool linear_;
    Speed level_;
    Climb climb_;
};

std::int32_t rounded_up(double cost) {
    // Less a hair, so that half of an even cost is half of it in spite of binary fractions.
    return static_cast<std::int32_t>(std::ceil(std::max(cost - 1e-6, 0.0)));
}

// What an edge's hills cost one vehicle, and where on it.
class Hills {
public:
    Hills(const Network& network, const EdgeCosts& costs, EdgeIndex edge, bool as_drawn)
        : steps_(network.grades.of(edge.position())),
          length_(at(network.edges, edge).length()),
          as_drawn_(as_drawn),
          climb_(at(costs.level, at(network.edges, edge).road), costs.vehicle),
          delay_(climb_.delay(steps_, length_, as_drawn)),
          level_(usable_cost(drive_time(length_, at(costs.level, at(network.edges, edge).road)))) {}

    bool any() const { return delay_ > Duration(); }

    // Of `whole`, which the edge costs with its hills: the level share, and the climbs' own.
    std::int32_t part(std::int32_t whole, double begin, double end) const {
        const Duration climbs =
            climb_.delay_between(steps_, length_, as_drawn_, metres(begin), metres(end));
        const double level_share = std::min((end - begin) / in_metres(length_), 1.0);
        const double climbs_share = std::min(climbs / delay_, 1.0);
        return rounded_up(level_ * level_share + (whole - level_) * climbs_share);
    }

private:
    std::span<const Grade> steps_;
    Length length_;
    bool as_drawn_;
    Climb climb_;
    Duration delay_;
    std::int32_t level_;  // of the whole edge without its hills
};

std::int32_t arc_cost(const EdgeCosts& costs, const Incidence& incidence, Heading heading) {
    return costs.of(incidence.edge, incidence.forward == (heading == Heading::away));
}

std::vector<Speed> level_speeds(const District& district, const Profile& profile,
                                const Season& season, Load load) {
    std::vector<Speed> speeds;
    speeds.reserve(district.roads.size());
    for (const Road& road : district.roads) {
        speeds.push_back(planning_speed(road, profile, season, load, district.assumptions).speed);
    }
    return speeds;
}

}  // namespace

EdgeCosts drive_costs(const District& district, const Network& network, const Profile& profile,
                      const Season& season, Load load) {
    EdgeCosts costs;
    costs.forward.assign(network.edges.size(), no_way);
    costs.backward.assign(network.edges.size(), no_way);
    const Assumptions& assumptions = district.assumptions;
    costs.vehicle = load == Load::loaded ? profile.loaded_per_power : profile.empty_per_power;
    if (district.travel_time == TravelTime::road_speeds && !network.grades.empty()) {
        costs.level = level_speeds(district, profile, season, load);
    }
    for (std::size_t r = 0; r < district.roads.size(); ++r) {
        const Road& road = district.roads[r];
        if (!may_use(road, profile, season, load, assumptions)) {
            continue;
        }
        const Speed level = planning_speed(road, profile, season, load, assumptions).speed;
        const EdgePrice price(district, network, level, costs.vehicle);
        for (std::size_t e = network.first_edge[r]; e < network.first_edge[r + 1]; ++e) {
            costs.forward[e] = road.one_way == OneWay::backward ? no_way : price(e, true);
            costs.backward[e] = road.one_way == OneWay::forward ? no_way : price(e, false);
        }
    }
    return costs;
}

EdgeCosts lengths_where(const Network& network, const EdgeCosts& times) {
    EdgeCosts costs{times.forward, times.backward, {}, {}};
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const std::int32_t length = millimetres(network.edges[e].length());
        costs.forward[e] = times.forward[e] == no_way ? no_way : length;
        costs.backward[e] = times.backward[e] == no_way ? no_way : length;
    }
    return costs;
}

EdgeCosts lengths_of(const Network& network, std::span<const std::uint8_t> marked_edges) {
    EdgeCosts costs;
    costs.forward.assign(network.edges.size(), no_way);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (marked_edges[e] != 0) {
            costs.forward[e] = millimetres(network.edges[e].length());
        }
    }
    costs.backward = costs.forward;
    return costs;
}

std::int32_t millimetres(Length length) {
    return static_cast<std::int32_t>(
        std::min(std::round(in_metres(length) * 1e3), double{most_cost}));
}

namespace {

void mark_ends(SearchGraph& graph) {
    for (std::uint32_t node = 0; node + 1 < graph.first.size(); ++node) {
        for (std::uint32_t i = graph.first[node]; i < graph.first[node + 1]; ++i) {
            const bool ends = std::ranges::all_of(graph.from(graph.arcs[i].to),
                                                  [&](const Arc& on) { return on.to == node; });
            graph.arcs[i].ends = ends ? 1 : 0;
        }
    }
}

}  // namespace

SearchGraph search_graph(const Network& network, const EdgeCosts& costs, Heading heading) {
    SearchGraph graph;
    graph.first.reserve(network.nodes.size() + 1);
    graph.first.push_back(0);
    graph.arcs.reserve(network.incidences.size());
    for (std::size_t n = 0; n < network.nodes.size(); ++n) {
        for (const Incidence& incidence : network.around(NodeIndex(n))) {
            const std::int32_t cost = arc_cost(costs, incidence, heading);
            if (cost != no_way) {
                Arc& arc = graph.arcs.emplace_back();
                arc.to = incidence.other.position() & Arc::most_node;
                arc.cost = cost;
            }
        }
        graph.first.push_back(static_cast<std::uint32_t>(graph.arcs.size()));
    }
    mark_ends(graph);
    return graph;
}

std::int32_t part_of(std::int32_t whole, double part, double length) {
    if (part <= 0.0) {
        return 0;
    }
    if (whole == no_way || part >= length) {
        return whole;
    }
    return rounded_up(whole * part / length);
}

std::int32_t stretch_cost(const Network& network, const EdgeCosts& costs, EdgeIndex edge,
                          bool as_drawn, double begin, double end) {
    const double length = in_metres(at(network.edges, edge).length());
    const std::int32_t whole = costs.of(edge, as_drawn);
    const bool inside = begin < end && end - begin < length;
    if (inside && whole != no_way && !costs.level.empty()) {
        const Hills hills(network, costs, edge, as_drawn);
        if (hills.any()) {
            return hills.part(whole, begin, end);
        }
    }
    return part_of(whole, end - begin, length);
}

EndCosts end_costs(const Network& network, const EdgeCosts& costs, RoadSpot spot, Heading heading) {
    const double length = in_metres(at(network.edges, spot.edge).length());
    const bool away = heading == Heading::away;
    return {stretch_cost(network, costs, spot.edge, !away, 0.0, spot.along),
            stretch_cost(network, costs, spot.edge, away, spot.along, length)};
}

std::int32_t cost_along(const Network& network, const EdgeCosts& costs, RoadSpot from,
                        RoadSpot to) {
    return stretch_cost(network, costs, from.edge, from.along <= to.along,
                        std::min(from.along, to.along), std::max(from.along, to.along));
}

std::int32_t trip_limit_of(const Assumptions& assumptions) {
    return static_cast<std::int32_t>(std::floor(in_minutes(assumptions.trip_limit) * 600.0 + 1e-7));
}

DriveTime gate_drive(const Station& station, const Season& season) {
    const double slower = std::min(1.0, season.speed_factor);
    const double tenths = in_minutes(station.to_gate.value_or(Duration{})) * 600.0 / slower;
    return tenths_of_second(static_cast<std::int32_t>(std::ceil(tenths - 1e-7)));
}

}  // namespace farwater::routing
