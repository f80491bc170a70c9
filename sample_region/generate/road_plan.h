// The roads of a township as a graph over the route grid: who joins whom, before lines are drawn.
#pragma once

#include <string>
#include <vector>

#include "analyzer/district/words.h"
#include "sample_region/generate/route_grid.h"
#include "sample_region/generate/terrain.h"

namespace farwater::sample {

enum class RoadKind {
    state,
    street,
    paved,
    paved_lane,
    gravel,
    narrow,
    private_road,
    seasonal,
    gated,
    drive,
};

struct Route {
    std::string name;
    RoadKind kind = RoadKind::gravel;
};

struct PlanEdge {
    int a = 0;
    int b = 0;
    int route = 0;
    OneWay one_way = OneWay::both;  // forward: from a to b
};

// What a new road likes.
struct RouteTaste {
    double reuse = 0.3;            // cost of an existing road against new ground
    double crossing_river = 1400;  // metres of detour that a bridge is worth
    double crossing_rail = 500;
    double crowding = 1.5;  // more than 1: keeps away from roads that it does not use
    double near_shore = 1;  // more than 1: cost away from the lake's shore
    bool may_reuse = true;
};

class RoadPlan {
public:
    RoadPlan(const Outline& outline, const Ground& ground, std::uint64_t tile_seed);

    RouteGrid& grid() { return grid_; }
    const RouteGrid& grid() const { return grid_; }
    const std::vector<PlanEdge>& edges() const { return edges_; }
    const std::vector<Route>& routes() const { return routes_; }
    const std::vector<int>& edges_at(int node) const { return at_[index(node)]; }
    bool is_road(int node) const { return !at_[index(node)].empty(); }
    bool is_open(int node) const { return !blocked_[index(node)]; }
    bool is_fixed(int node) const { return fixed_[index(node)]; }
    double height(int node) const { return height_[index(node)]; }
    double metres_to_shore(int node) const { return shore_[index(node)]; }

    int add_route(std::string name, RoadKind kind);
    // A junction that stays where it is, outside the regular grid.
    int add_fixed(Point p);
    // Nothing new is built on grid places for which inside(place) holds.
    template <class Inside>
    void block(Inside inside) {
        for (int node = 0; node < grid_.grid_size(); ++node) {
            blocked_[index(node)] = blocked_[index(node)] || inside(grid_.place(node));
        }
    }
    // Joins a fixed place to the nearest open grid place on the far side from `from`.
    void open_exit(int fixed, Point from);

    // Cost of a step for the search: metres, made dearer by slope, water and crowding.
    double step(int from, int to, const RouteTaste& taste) const;
    void add_edge(int a, int b, int route, OneWay one_way = OneWay::both);
    // Adds the steps of the path that are not roads yet.
    void add_path(const std::vector<int>& path, int route);

    // Grid steps from the nearest road for every grid place, through open ground.
    std::vector<int> steps_from_roads() const;

private:
    static std::size_t index(int node) { return static_cast<std::size_t>(node); }
    int edge_between(int a, int b) const;
    bool crosses_used_diagonal(int a, int b) const;
    double obstacles(Point a, Point b, int from, int to, const RouteTaste& taste) const;

    const Ground& ground_;
    RouteGrid grid_;
    std::vector<PlanEdge> edges_;
    std::vector<Route> routes_;
    std::vector<std::vector<int>> at_;  // edges at a node
    std::vector<bool> blocked_, fixed_, crowded_;
    std::vector<double> height_, shore_, river_, rail_;
};

}  // namespace farwater::sample
