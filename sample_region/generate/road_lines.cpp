#include "sample_region/generate/road_lines.h"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "sample_region/generate/segment_index.h"

namespace farwater::sample {
namespace {

constexpr double half_bridge = 18;
constexpr double half_rail_crossing = 12;

int other_end(const PlanEdge& edge, int node) { return edge.a == node ? edge.b : edge.a; }

// The two neighbours between which the road runs through `node`: the only two, or two of one route.
std::optional<std::pair<int, int>> through_pair(const RoadPlan& plan, int node) {
    const std::vector<int>& edges = plan.edges_at(node);
    const auto edge = [&](std::size_t i) {
        return plan.edges()[static_cast<std::size_t>(edges[i])];
    };
    for (std::size_t i = 0; i < edges.size(); ++i) {
        for (std::size_t k = i + 1; k < edges.size(); ++k) {
            if (edges.size() == 2 || edge(i).route == edge(k).route) {
                return std::pair(other_end(edge(i), node), other_end(edge(k), node));
            }
        }
    }
    return std::nullopt;
}

// Places with zigzags of the grid taken out; fixed places stay.
std::vector<Point> smoothed_places(const RoadPlan& plan, int rounds) {
    std::vector<Point> places;
    for (int node = 0; node < plan.grid().size(); ++node) {
        places.push_back(plan.grid().place(node));
    }
    for (int round = 0; round < rounds; ++round) {
        const std::vector<Point> before = places;
        for (int node = 0; node < plan.grid().size(); ++node) {
            const auto pair = plan.is_fixed(node) ? std::nullopt : through_pair(plan, node);
            if (pair) {
                const Point middle = (before[static_cast<std::size_t>(pair->first)] +
                                      before[static_cast<std::size_t>(pair->second)]) *
                                     0.5;
                Point& place = places[static_cast<std::size_t>(node)];
                place = place * 0.5 + middle * 0.5;
            }
        }
    }
    for (Point& place : places) {
        place = rounded(place);
    }
    return places;
}

// True where a line must end: junctions, dead ends, and where name, kind or direction change.
bool is_break(const RoadPlan& plan, int node) {
    const std::vector<int>& edges = plan.edges_at(node);
    if (edges.size() != 2) {
        return true;
    }
    const PlanEdge& a = plan.edges()[static_cast<std::size_t>(edges[0])];
    const PlanEdge& b = plan.edges()[static_cast<std::size_t>(edges[1])];
    return a.route != b.route || a.one_way != b.one_way;
}

RoadLine drawn(const Polyline& raw, const PlanEdge& first) {
    Polyline line = raw;
    if (line.size() > 2) {
        line = simplified(with_cut_corners(with_cut_corners(line)), 1.0);
    }
    for (Point& p : line) {
        p = rounded(p);
    }
    return {line, first.route, first.one_way, {}, 0, 0};
}

std::vector<RoadLine> chains(const RoadPlan& plan, const std::vector<Point>& places) {
    std::vector<RoadLine> lines;
    std::vector<bool> used(plan.edges().size(), false);
    for (int start = 0; start < plan.grid().size(); ++start) {
        if (!plan.is_road(start) || !is_break(plan, start)) {
            continue;
        }
        for (const int first : plan.edges_at(start)) {
            Polyline raw{places[static_cast<std::size_t>(start)]};
            int node = start;
            int edge = first;
            while (!used[static_cast<std::size_t>(edge)]) {
                used[static_cast<std::size_t>(edge)] = true;
                node = other_end(plan.edges()[static_cast<std::size_t>(edge)], node);
                raw.push_back(places[static_cast<std::size_t>(node)]);
                if (!is_break(plan, node)) {
                    const std::vector<int>& both = plan.edges_at(node);
                    edge = both[0] == edge ? both[1] : both[0];
                }
            }
            if (raw.size() > 1) {
                const PlanEdge& known = plan.edges()[static_cast<std::size_t>(first)];
                RoadLine line = drawn(raw, known);
                if (line.one_way == OneWay::forward && known.a != start) {
                    std::ranges::reverse(line.line);
                }
                lines.push_back(std::move(line));
            }
        }
    }
    return lines;
}

Box box_of(const std::vector<RoadLine>& lines) {
    Box box;
    for (const RoadLine& line : lines) {
        for (const Point p : line.line) {
            box.include(p);
        }
    }
    return box;
}

struct Crossing {
    double metres;
    Point place;
};

bool is_end(const Polyline& line, Point p) {
    return metres_between(line.front(), p) < 0.05 || metres_between(line.back(), p) < 0.05;
}

// Where lines cross without a shared end, for each line.
std::vector<std::vector<Crossing>> crossings(const std::vector<RoadLine>& lines) {
    SegmentIndex index(box_of(lines), 120);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        index.add(lines[i].line, static_cast<std::int32_t>(i));
    }
    std::vector<std::vector<Crossing>> cuts(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Polyline& line = lines[i].line;
        double before = 0;
        for (std::size_t k = 1; k < line.size(); ++k) {
            const Point a = line[k - 1];
            const Point b = line[k];
            const double length = metres_between(a, b);
            index.each_near((a + b) * 0.5, length / 2 + 1, [&](const Segment& other) {
                const auto share = crossing(a, b, other.a, other.b);
                if (share && other.line != static_cast<std::int32_t>(i)) {
                    // The same formula from both sides would round apart: the lower line decides.
                    const bool lower = static_cast<std::int32_t>(i) < other.line;
                    const Point place =
                        rounded(lower ? a + (b - a) * *share
                                      : other.a + (other.b - other.a) *
                                                      crossing(other.a, other.b, a, b).value_or(0));
                    if (!is_end(line, place)) {
                        cuts[i].push_back({before + length * *share, place});
                    }
                }
            });
            before += length;
        }
    }
    return cuts;
}

std::vector<RoadLine> split(const RoadLine& line, std::vector<Crossing> cuts) {
    std::ranges::stable_sort(cuts, {}, &Crossing::metres);
    std::vector<RoadLine> parts;
    RoadLine part = line;
    part.line = {line.line.front()};
    double reached = 0;
    auto next = cuts.begin();
    for (std::size_t i = 1; i < line.line.size(); ++i) {
        reached += metres_between(line.line[i - 1], line.line[i]);
        for (; next != cuts.end() && next->metres <= reached; ++next) {
            if (part.line.back() == next->place) {
                continue;
            }
            part.line.push_back(next->place);
            parts.push_back(part);
            part.line = {next->place};
        }
        if (part.line.back() != line.line[i]) {
            part.line.push_back(line.line[i]);
        }
    }
    if (part.line.size() > 1) {
        parts.push_back(part);
    }
    return parts;
}

std::vector<RoadLine> noded(const std::vector<RoadLine>& lines) {
    const auto cuts = crossings(lines);
    std::vector<RoadLine> result;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        for (RoadLine& part : split(lines[i], cuts[i])) {
            result.push_back(std::move(part));
        }
    }
    return result;
}

void add_stretches(RoadLine& road, const Polyline& obstacle, Stretch::What what, double half) {
    const double length = metres_along(road.line);
    double before = 0;
    for (std::size_t i = 1; i < road.line.size(); ++i) {
        const double step = metres_between(road.line[i - 1], road.line[i]);
        for (std::size_t k = 1; k < obstacle.size(); ++k) {
            const auto share =
                crossing(road.line[i - 1], road.line[i], obstacle[k - 1], obstacle[k]);
            if (share) {
                const double at = before + step * *share;
                road.stretches.push_back(
                    {std::max(0.0, at - half), std::min(length, at + half), what});
            }
        }
        before += step;
    }
}

// In order and apart: a stretch that overlaps the one before begins at its end.
void settle_stretches(RoadLine& road) {
    auto& stretches = road.stretches;
    std::ranges::sort(stretches,
                      [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    double free_from = 0;
    for (Stretch& stretch : stretches) {
        stretch.from = std::max(stretch.from, free_from);
        free_from = std::max(free_from, stretch.to);
    }
    std::erase_if(stretches, [](const Stretch& stretch) { return stretch.to - stretch.from < 2; });
}

// Metres along the route from its end nearest the village, for the lines' ends.
void number_route(std::vector<RoadLine*>& lines, Point village) {
    std::map<Point, double> reached;
    double farthest = 0;
    while (true) {
        Point start;
        double best = std::numeric_limits<double>::infinity();
        for (const RoadLine* road : lines) {
            for (const Point end : {road->line.front(), road->line.back()}) {
                const double off = metres_between(end, village);
                if (!reached.contains(end) && off < best) {
                    best = off;
                    start = end;
                }
            }
        }
        if (best == std::numeric_limits<double>::infinity()) {
            break;
        }
        reached[start] = farthest;
        for (bool changed = true; changed;) {
            changed = false;
            for (const RoadLine* road : lines) {
                const double length = metres_along(road->line);
                for (const auto& [from, to] : {std::pair(road->line.front(), road->line.back()),
                                               std::pair(road->line.back(), road->line.front())}) {
                    if (!reached.contains(from)) {
                        continue;
                    }
                    const double there = reached[from] + length;
                    const auto known = reached.find(to);
                    if (known == reached.end() || there < known->second - 1e-6) {
                        reached[to] = there;
                        farthest = std::max(farthest, there);
                        changed = true;
                    }
                }
            }
        }
    }
    for (RoadLine* road : lines) {
        road->address_start = reached[road->line.front()];
        road->address_end = reached[road->line.back()];
    }
}

}  // namespace

std::vector<RoadLine> draw_roads(const RoadPlan& plan, const Terrain& terrain, Point village) {
    std::vector<RoadLine> lines = noded(chains(plan, smoothed_places(plan, 3)));
    std::vector<std::vector<RoadLine*>> by_route(plan.routes().size());
    for (RoadLine& road : lines) {
        add_stretches(road, terrain.river, Stretch::What::bridge, half_bridge);
        add_stretches(road, terrain.rail, Stretch::What::rail_crossing, half_rail_crossing);
        settle_stretches(road);
        by_route[static_cast<std::size_t>(road.route)].push_back(&road);
    }
    for (std::vector<RoadLine*>& route : by_route) {
        number_route(route, village);
    }
    return lines;
}

}  // namespace farwater::sample
