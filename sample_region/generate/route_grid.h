// A jittered grid of places over a township and cheapest paths over it: how rivers, the railway and
// roads find their way through the hills. Steps go to the eight neighbours; places of their own
// (gates at the edge, exits of the village) hang on by links.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <queue>
#include <utility>
#include <vector>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

inline constexpr double no_way = std::numeric_limits<double>::infinity();

class RouteGrid {
public:
    // Every grid place moves by up to `jitter` x step from its cell's middle.
    RouteGrid(const Box& box, double step, double jitter, std::uint64_t seed);

    int columns() const { return columns_; }
    int rows() const { return rows_; }
    int grid_size() const { return columns_ * rows_; }
    int size() const { return static_cast<int>(places_.size()); }
    Point place(int node) const { return places_[static_cast<std::size_t>(node)]; }
    void move(int node, Point to) { places_[static_cast<std::size_t>(node)] = to; }

    // The grid place whose cell holds p (clamped to the grid).
    int cell_of(Point p) const;
    // Adds a place outside the regular grid; it has no neighbours but its links.
    int add_place(Point p);
    void link(int special, int grid_node);

    // Calls visit(neighbour) for the grid's neighbours and then the links.
    template <class Visit>
    void each_neighbour(int node, Visit visit) const {
        if (node < grid_size()) {
            each_grid_neighbour(node, visit);
        }
        for (const auto& [a, b] : links_) {
            if (a == node) {
                visit(b);
            } else if (b == node) {
                visit(a);
            }
        }
    }

    // Calls visit(node) for the grid places at most `cells` away in both directions.
    template <class Visit>
    void each_near(int node, int cells, Visit visit) const {
        const int column = node % columns_;
        const int row = node / columns_;
        for (int r = row - cells; r <= row + cells; ++r) {
            for (int c = column - cells; c <= column + cells; ++c) {
                if (c >= 0 && c < columns_ && r >= 0 && r < rows_) {
                    visit(r * columns_ + c);
                }
            }
        }
    }

private:
    template <class Visit>
    void each_grid_neighbour(int node, Visit visit) const {
        each_near(node, 1, [&](int other) {
            if (other != node) {
                visit(other);
            }
        });
    }

    Point low_;
    double step_;
    int columns_;
    int rows_;
    std::vector<Point> places_;
    std::vector<std::pair<int, int>> links_;
};

// The cheapest way from `start` to the first place for which goal(node) holds, both ends included.
// cost(from, to) is never negative; `no_way` forbids the step. Empty if there is none within
// `limit`. Ties go to the smaller node, so that the answer is the same everywhere. O(n log n).
template <class Cost, class Goal>
std::vector<int> cheapest_path(const RouteGrid& grid, int start, Cost cost, Goal goal,
                               double limit = no_way) {
    const auto size = static_cast<std::size_t>(grid.size());
    std::vector<double> best(size, no_way);
    std::vector<int> before(size, -1);
    using Entry = std::pair<double, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    best[static_cast<std::size_t>(start)] = 0;
    queue.emplace(0.0, start);
    while (!queue.empty()) {
        const auto [so_far, node] = queue.top();
        queue.pop();
        if (so_far > best[static_cast<std::size_t>(node)]) {
            continue;
        }
        if (node != start && goal(node)) {
            std::vector<int> path;
            for (int at = node; at >= 0; at = before[static_cast<std::size_t>(at)]) {
                path.push_back(at);
            }
            return {path.rbegin(), path.rend()};
        }
        grid.each_neighbour(node, [&](int next) {
            const double total = so_far + cost(node, next);
            if (total < best[static_cast<std::size_t>(next)] && total <= limit) {
                best[static_cast<std::size_t>(next)] = total;
                before[static_cast<std::size_t>(next)] = node;
                queue.emplace(total, next);
            }
        });
    }
    return {};
}

// The path as a line, smoothed: neighbours averaged `rounds` times with fixed ends, corners cut,
// nearly straight stretches thinned.
Polyline smooth_line(const RouteGrid& grid, const std::vector<int>& path, int rounds);

}  // namespace farwater::sample
