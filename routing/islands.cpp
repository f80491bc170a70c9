#include "routing/islands.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "routing/noding/road_problem.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr Length farthest_gap = miles(1.0);

struct Island {
    std::vector<std::uint32_t> roads;
    double length = 0.0;  // metres
    std::size_t parcels = 0;
};

// The part of a road is that of its first edge; a road without edges has none.
std::int32_t component_of(const Network& network, RoadIndex road) {
    const std::span<const Edge> edges = network.edges_of(road);
    return edges.empty() ? -1 : at(network.component, edges.front().from);
}

// By component; that of the main network stays empty.
std::vector<Island> islands_of(const District& district, const Network& network,
                               const Access& access) {
    std::vector<Island> islands;
    for (std::uint32_t r = 0; r < district.roads.size(); ++r) {
        const std::int32_t component = component_of(network, RoadIndex(r));
        if (component > 0) {
            const auto i = static_cast<std::size_t>(component);
            islands.resize(std::max(islands.size(), i + 1));
            islands[i].roads.push_back(r);
            for (const Edge& edge : network.edges_of(RoadIndex(r))) {
                islands[i].length += in_metres(edge.length());
            }
        }
    }
    for (std::size_t p = 0; p < district.parcels.size() && !islands.empty(); ++p) {
        if (access.spots[p].valid()) {
            const Edge& edge = at(network.edges, access.spots[p].edge);
            const std::int32_t component = at(network.component, edge.from);
            islands[static_cast<std::size_t>(component)].parcels += component > 0 ? 1U : 0U;
        }
    }
    return islands;
}

bool cross(Point a0, Point a1, Point b0, Point b1) {
    const auto side = [](Point a, Point b, Point p) {
        return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    };
    return (side(a0, a1, b0) < 0.0) != (side(a0, a1, b1) < 0.0) &&
           (side(b0, b1, a0) < 0.0) != (side(b0, b1, a1) < 0.0);
}

// Square metres between two segments: 0 where they cross, else one of the four ends is nearest.
double apart_squared(Point a0, Point a1, Point b0, Point b1) {
    if (cross(a0, a1, b0, b1)) {
        return 0.0;
    }
    return std::min({distance_squared(nearest_on(b0, b1, a0), a0),
                     distance_squared(nearest_on(b0, b1, a1), a1),
                     distance_squared(nearest_on(a0, a1, b0), b0),
                     distance_squared(nearest_on(a0, a1, b1), b1)});
}

struct IslandGap {
    double apart_squared = INFINITY;  // square metres
    std::uint32_t road = 0;           // of the main network
};

class MainNetwork {
public:
    MainNetwork(const std::vector<Road>& roads, const Network& network)
        : roads_(roads), finder_(roads, [&network](std::uint32_t road) {
              return component_of(network, RoadIndex(road)) == 0;
          }) {}

    std::optional<IslandGap> gap_to(const Island& island) const {
        double reach = in_metres(farthest_gap);
        std::optional<IslandGap> best;
        for (const std::uint32_t road : island.roads) {
            for (const Point& p : roads_[road].line) {
                const auto any = [](std::uint32_t) { return true; };
                const auto same = [](std::uint32_t) { return 0; };
                if (const auto nearest = finder_.nearest(p, reach, any, same)) {
                    improve(best, {nearest->apart_squared, nearest->segment.road});
                    reach = std::sqrt(best->apart_squared);
                }
            }
        }
        for (const std::uint32_t road : island.roads) {
            for (std::size_t i = 1; i < roads_[road].line.size(); ++i) {
                look_along(roads_[road].line[i - 1], roads_[road].line[i], reach, best);
            }
        }
        return best;
    }

private:
    static void improve(std::optional<IslandGap>& best, const IslandGap& gap) {
        if (!best ||
            std::pair(gap.apart_squared, gap.road) < std::pair(best->apart_squared, best->road)) {
            best = gap;
        }
    }

    // What the main network has beside a segment of the island.
    void look_along(Point a, Point b, double reach, std::optional<IslandGap>& best) const {
        Box box;
        for (const Point end : {a, b}) {
            box.include({end.x - reach, end.y - reach});
            box.include({end.x + reach, end.y + reach});
        }
        finder_.visit_near(box, [&](const Segment& segment) {
            const Polyline& line = roads_[segment.road].line;
            const double apart =
                apart_squared(a, b, line[segment.vertex], line[segment.vertex + 1]);
            if (apart <= reach * reach) {
                improve(best, {apart, segment.road});
            }
        });
    }

    const std::vector<Road>& roads_;
    RoadFinder finder_;
};

std::string gap_text(const std::vector<Road>& roads, const std::optional<IslandGap>& gap) {
    if (!gap) {
        return "more than a mile from the main network";
    }
    const std::string road = named(roads[gap->road]);
    return gap->apart_squared == 0.0 ? "crosses " + road + " of the main network without a junction"
                                     : whole_feet(metres(std::sqrt(gap->apart_squared))) +
                                           " from " + road + " of the main network";
}

std::string text_of(const std::vector<Road>& roads, const Island& island,
                    const std::optional<IslandGap>& gap) {
    return "with " + counted(island.roads.size(), "road", "roads") + ", " +
           whole_feet(metres(island.length)) + " in all, access of " +
           counted(island.parcels, "parcel", "parcels") + ", " + gap_text(roads, gap);
}

}  // namespace

std::vector<Problem> island_problems(const District& district, const Network& network,
                                     const Access& access, const Work& work) {
    const std::vector<Island> islands = islands_of(district, network, access);
    std::vector<Problem> problems;
    if (islands.empty()) {
        return problems;
    }
    const MainNetwork main_network(district.roads, network);
    for (std::size_t i = 1; i < islands.size() && !work.stopped(); ++i) {
        if (!islands[i].roads.empty()) {
            problems.push_back(
                road_problem(ProblemId::road_island, district.roads[islands[i].roads.front()],
                             text_of(district.roads, islands[i], main_network.gap_to(islands[i]))));
        }
    }
    return problems;
}

}  // namespace farwater::routing
