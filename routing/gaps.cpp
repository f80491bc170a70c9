#include "routing/gaps.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "routing/noding/road_problem.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr double detour = 3.0;  // a way longer than so many gaps does not explain the nearness
constexpr std::size_t ends_a_chunk = 1024;

struct DeadEnd {
    NodeIndex node;
    RoadIndex road;
    Point place;  // where the line ends, which a node that joined others need not be
};

// The place that a dead end looks meant for.
struct EndGap {
    std::uint32_t road = 0;
    double apart = INFINITY;  // metres
    NodeIndex faces;          // the node there; not valid inside an edge
    bool connected = false;   // some way leads there
};

std::vector<DeadEnd> dead_ends(const District& district, const Network& network) {
    std::vector<DeadEnd> ends;
    for (std::size_t n = 0; n < network.nodes.size(); ++n) {
        const std::span<const Incidence> around = network.around(NodeIndex(n));
        if (around.size() == 1) {
            const Edge& edge = at(network.edges, around.front().edge);
            const Polyline& line = at(district.roads, edge.road).line;
            const double along = around.front().forward ? edge.begin : edge.end;
            ends.push_back({NodeIndex(n), edge.road, point_along(line, along)});
        }
    }
    return ends;
}

// Metres along the roads from a node to the nodes around it. They are few, so the list is searched
// plainly, and a node stands in it again when a shorter way is found.
class Surroundings {
public:
    Surroundings(const Network& network, NodeIndex from, double limit) : network_(network) {
        reached_.push_back({from, 0.0});
        for (std::size_t next = 0; next < reached_.size(); ++next) {
            const Reached here = reached_[next];
            for (const Incidence& incidence : network.around(here.node)) {
                const double way = here.way + in_metres(at(network.edges, incidence.edge).length());
                if (way <= limit && way < way_to(incidence.other)) {
                    reached_.push_back({incidence.other, way});
                }
            }
        }
    }

    // INFINITY where it is beyond the limit.
    double way_to(RoadSpot spot) const {
        const Edge& edge = at(network_.edges, spot.edge);
        return std::min(way_to(edge.from) + spot.along,
                        way_to(edge.to) + in_metres(edge.length()) - spot.along);
    }

private:
    struct Reached {
        NodeIndex node;
        double way;
    };

    double way_to(NodeIndex node) const {
        double way = INFINITY;
        for (const Reached& reached : reached_) {
            way = reached.node == node ? std::min(way, reached.way) : way;
        }
        return way;
    }

    const Network& network_;
    std::vector<Reached> reached_;
};

class GapFinder {
public:
    GapFinder(const District& district, const Network& network)
        : district_(district),
          network_(network),
          tolerance_(in_metres(district.assumptions.gap_tolerance)),
          finder_(district.roads, [&network](std::uint32_t road) {
              return !network.edges_of(RoadIndex(road)).empty();
          }) {}

    std::optional<EndGap> gap_at(const DeadEnd& end) const {
        const Surroundings around(network_, end.node, detour * tolerance_);
        std::optional<EndGap> best;
        Box box;
        box.include({end.place.x - tolerance_, end.place.y - tolerance_});
        box.include({end.place.x + tolerance_, end.place.y + tolerance_});
        finder_.visit_near(box, [&](const Segment& segment) {
            const NearestPlace place = place_on(segment, end.place);
            const double apart = std::sqrt(place.apart_squared);
            const bool better =
                !best || std::pair(apart, segment.road) < std::pair(best->apart, best->road);
            if (apart > tolerance_ || !better) {
                return;
            }
            const RoadSpot spot =
                spot_on(network_, RoadIndex(segment.road), metres_along(district_.roads, place));
            if (around.way_to(spot) > std::max(detour * apart, tolerance_)) {
                best = gap_to(end, spot, apart);
            }
        });
        return best;
    }

private:
    NearestPlace place_on(const Segment& segment, Point p) const {
        const Polyline& line = district_.roads[segment.road].line;
        const Point place = nearest_on(line[segment.vertex], line[segment.vertex + 1], p);
        return {segment, place, distance_squared(place, p)};
    }

    EndGap gap_to(const DeadEnd& end, RoadSpot spot, double apart) const {
        const Edge& edge = at(network_.edges, spot.edge);
        EndGap gap{static_cast<std::uint32_t>(edge.road.position()), apart, {}, false};
        if (spot.along == 0.0) {
            gap.faces = edge.from;
        } else if (spot.along == in_metres(edge.length())) {
            gap.faces = edge.to;
        }
        gap.connected = at(network_.component, edge.from) == at(network_.component, end.node);
        return gap;
    }

    const District& district_;
    const Network& network_;
    double tolerance_;
    RoadFinder finder_;
};

// Whether the dead end at the other side says the same and comes first.
bool told_from_there(const std::vector<DeadEnd>& ends,
                     const std::vector<std::optional<EndGap>>& gaps, std::size_t here) {
    const NodeIndex faces = gaps[here]->faces;
    const auto there = std::ranges::lower_bound(ends, faces, {}, &DeadEnd::node);
    if (!faces.valid() || there == ends.end() || there->node != faces) {
        return false;
    }
    const auto other = static_cast<std::size_t>(there - ends.begin());
    return gaps[other] && gaps[other]->faces == ends[here].node &&
           std::pair(there->road, other) < std::pair(ends[here].road, here);
}

std::string text_of(const std::vector<Road>& roads, const DeadEnd& end, const EndGap& gap) {
    const Road& road = at(roads, end.road);
    const std::string other =
        at(roads, end.road).row == roads[gap.road].row ? "itself" : named(roads[gap.road]);
    const auto tenths = std::lround(in_feet(metres(gap.apart)) * 10.0);
    return (road.name.empty() ? "" : road.name.text() + " ") + std::string("ends ") +
           std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " ft from " + other +
           (gap.connected ? ", to which other roads lead"
                          : ", to which no other road leads from there");
}

}  // namespace

std::vector<Problem> gap_problems(const District& district, const Network& network,
                                  const Work& work) {
    const std::vector<DeadEnd> ends = dead_ends(district, network);
    if (ends.empty()) {
        return {};
    }
    const GapFinder finder(district, network);
    std::vector<std::optional<EndGap>> gaps(ends.size());
    for_each_chunk(work, "road gaps", ends.size(), ends_a_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t i = begin; i < end; ++i) {
                           gaps[i] = finder.gap_at(ends[i]);
                       }
                   });
    std::vector<std::size_t> told;
    for (std::size_t i = 0; i < ends.size(); ++i) {
        if (gaps[i] && !told_from_there(ends, gaps, i)) {
            told.push_back(i);
        }
    }
    std::ranges::stable_sort(told, {}, [&](std::size_t i) { return ends[i].road; });
    std::vector<Problem> problems;
    problems.reserve(told.size());
    for (const std::size_t i : told) {
        problems.push_back(road_problem(ProblemId::road_gap, at(district.roads, ends[i].road),
                                        text_of(district.roads, ends[i], *gaps[i])));
    }
    return problems;
}

}  // namespace farwater::routing
