#include "sample_region/generate/route_grid.h"

#include <algorithm>
#include <cmath>

#include "sample_region/generate/random.h"

namespace farwater::sample {

RouteGrid::RouteGrid(const Box& box, double step, double jitter, std::uint64_t seed)
    : low_(box.low),
      step_(step),
      columns_(std::max(1, static_cast<int>((box.high.x - box.low.x) / step))),
      rows_(std::max(1, static_cast<int>((box.high.y - box.low.y) / step))) {
    Random random(seed);
    places_.reserve(static_cast<std::size_t>(grid_size()) + 64);
    for (int row = 0; row < rows_; ++row) {
        for (int column = 0; column < columns_; ++column) {
            const Point offset{random.between(-jitter, jitter), random.between(-jitter, jitter)};
            places_.push_back(low_ + (Point{column + 0.5, row + 0.5} + offset) * step);
        }
    }
}

int RouteGrid::cell_of(Point p) const {
    const int column = static_cast<int>(std::floor((p.x - low_.x) / step_));
    const int row = static_cast<int>(std::floor((p.y - low_.y) / step_));
    return std::clamp(row, 0, rows_ - 1) * columns_ + std::clamp(column, 0, columns_ - 1);
}

int RouteGrid::add_place(Point p) {
    places_.push_back(p);
    return size() - 1;
}

void RouteGrid::link(int special, int grid_node) { links_.emplace_back(special, grid_node); }

Polyline smooth_line(const RouteGrid& grid, const std::vector<int>& path, int rounds) {
    Polyline line;
    line.reserve(path.size());
    for (const int node : path) {
        line.push_back(grid.place(node));
    }
    for (int round = 0; round < rounds; ++round) {
        const Polyline before = line;
        for (std::size_t i = 1; i + 1 < line.size(); ++i) {
            line[i] = before[i] * 0.5 + (before[i - 1] + before[i + 1]) * 0.25;
        }
    }
    line = simplified(with_cut_corners(with_cut_corners(line)), 1.5);
    for (Point& p : line) {
        p = rounded(p);
    }
    return line;
}

}  // namespace farwater::sample
