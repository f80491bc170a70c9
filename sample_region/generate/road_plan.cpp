#include "sample_region/generate/road_plan.h"

#include <algorithm>
#include <utility>

#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

constexpr double grid_step = 100;
constexpr double clear_of_shore = 45;
constexpr double clear_of_river = 40;
constexpr double clear_of_rail = 25;
constexpr double clear_of_edge = 70;

bool crosses(Point a, Point b, const Polyline& line) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        if (crossing(a, b, line[i - 1], line[i])) {
            return true;
        }
    }
    return false;
}

}  // namespace

RoadPlan::RoadPlan(const Outline& outline, const Ground& ground, std::uint64_t tile_seed)
    : ground_(ground), grid_(outline.box(), grid_step, 0.24, mixed(tile_seed, 21U)) {
    const auto size = static_cast<std::size_t>(grid_.grid_size());
    at_.resize(size);
    blocked_.resize(size);
    fixed_.resize(size);
    crowded_.resize(size);
    for (int node = 0; node < grid_.grid_size(); ++node) {
        const Point p = grid_.place(node);
        const Terrain& terrain = ground.terrain;
        height_.push_back(terrain.elevation(p));
        shore_.push_back(terrain.metres_to_lake(p));
        river_.push_back(metres_to_line(p, terrain.river));
        rail_.push_back(metres_to_line(p, terrain.rail));
        blocked_[index(node)] = outline.inside_by(p) < clear_of_edge ||
                                shore_.back() < clear_of_shore || terrain.in_lake(p) ||
                                river_.back() < clear_of_river || rail_.back() < clear_of_rail;
    }
}

int RoadPlan::add_route(std::string name, RoadKind kind) {
    routes_.push_back({std::move(name), kind});
    return static_cast<int>(routes_.size()) - 1;
}

int RoadPlan::add_fixed(Point p) {
    const int node = grid_.add_place(rounded(p));
    at_.emplace_back();
    blocked_.push_back(false);
    fixed_.push_back(true);
    crowded_.push_back(false);
    height_.push_back(ground_.terrain.elevation(p));
    shore_.push_back(ground_.terrain.metres_to_lake(p));
    river_.push_back(metres_to_line(p, ground_.terrain.river));
    rail_.push_back(metres_to_line(p, ground_.terrain.rail));
    return node;
}

void RoadPlan::open_exit(int fixed, Point from) {
    const Point p = grid_.place(fixed);
    const Point outward = unit(p - from);
    int best = -1;
    double best_badness = no_way;
    grid_.each_near(grid_.cell_of(p + outward * grid_step), 3, [&](int node) {
        const Point way = grid_.place(node) - p;
        const double ahead = dot(way, outward);
        const double badness = norm(way) + 2 * std::abs(cross(way, outward));
        if (is_open(node) && ahead > 20 && badness < best_badness) {
            best = node;
            best_badness = badness;
        }
    });
    if (best >= 0) {
        grid_.link(fixed, best);
    }
}

int RoadPlan::edge_between(int a, int b) const {
    for (const int edge : at_[index(a)]) {
        const PlanEdge& known = edges_[index(edge)];
        if (known.a + known.b == a + b && (known.a == b || known.b == b)) {
            return edge;
        }
    }
    return -1;
}

bool RoadPlan::crosses_used_diagonal(int a, int b) const {
    if (a >= grid_.grid_size() || b >= grid_.grid_size()) {
        return false;
    }
    const int columns = grid_.columns();
    const int sideways = b % columns - a % columns;
    const int upward = b / columns - a / columns;
    return sideways != 0 && upward != 0 && edge_between(a + sideways, a + upward * columns) >= 0;
}

double RoadPlan::obstacles(Point a, Point b, int from, int to, const RouteTaste& taste) const {
    double more = 0;
    if (std::min(river_[index(from)], river_[index(to)]) < 150 &&
        crosses(a, b, ground_.terrain.river)) {
        more += taste.crossing_river;
    }
    if (std::min(rail_[index(from)], rail_[index(to)]) < 150 &&
        crosses(a, b, ground_.terrain.rail)) {
        more += taste.crossing_rail;
    }
    if (std::min(shore_[index(from)], shore_[index(to)]) < 90 &&
        ground_.terrain.in_lake((a + b) * 0.5)) {
        return no_way;
    }
    return more;
}

double RoadPlan::step(int from, int to, const RouteTaste& taste) const {
    const Point a = grid_.place(from);
    const Point b = grid_.place(to);
    const double length = metres_between(a, b);
    if (edge_between(from, to) >= 0) {
        return taste.may_reuse ? length * taste.reuse : no_way;
    }
    if (blocked_[index(to)] || crosses_used_diagonal(from, to)) {
        return no_way;
    }
    const double slope = std::abs(height_[index(to)] - height_[index(from)]) / length / 0.045;
    double cost = length * (1 + slope * slope);
    if (crowded_[index(to)] && !is_road(to)) {
        cost *= taste.crowding;
    }
    if (is_road(from) && is_road(to)) {
        cost *= 3;
    }
    if (taste.near_shore > 1 && shore_[index(to)] > 170) {
        cost *= taste.near_shore;
    }
    return cost + obstacles(a, b, from, to, taste);
}

void RoadPlan::add_edge(int a, int b, int route, OneWay one_way) {
    const int edge = static_cast<int>(edges_.size());
    edges_.push_back({a, b, route, one_way});
    at_[index(a)].push_back(edge);
    at_[index(b)].push_back(edge);
}

void RoadPlan::add_path(const std::vector<int>& path, int route) {
    for (std::size_t i = 1; i < path.size(); ++i) {
        if (edge_between(path[i - 1], path[i]) < 0) {
            add_edge(path[i - 1], path[i], route);
        }
    }
    for (const int node : path) {
        grid_.each_near(grid_.cell_of(grid_.place(node)), 2,
                        [&](int near) { crowded_[index(near)] = true; });
    }
}

std::vector<int> RoadPlan::steps_from_roads() const {
    std::vector<int> steps(static_cast<std::size_t>(grid_.grid_size()), -1);
    std::vector<int> queue;
    for (int node = 0; node < grid_.size(); ++node) {
        const int cell = node < grid_.grid_size() ? node : grid_.cell_of(grid_.place(node));
        if (is_road(node) && steps[index(cell)] < 0) {
            steps[index(cell)] = 0;
            queue.push_back(cell);
        }
    }
    for (std::size_t next = 0; next < queue.size(); ++next) {
        const int node = queue[next];
        grid_.each_near(node, 1, [&](int other) {
            if (steps[index(other)] < 0 && is_open(other)) {
                steps[index(other)] = steps[index(node)] + 1;
                queue.push_back(other);
            }
        });
    }
    return steps;
}

}  // namespace farwater::sample
