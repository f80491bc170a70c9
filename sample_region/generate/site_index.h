// Points by place, for "is something too near already".
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

class SiteIndex {
public:
    SiteIndex(const Box& box, double cell)
        : low_(box.low),
          cell_(cell),
          columns_(static_cast<int>((box.high.x - box.low.x) / cell) + 1),
          rows_(static_cast<int>((box.high.y - box.low.y) / cell) + 1),
          cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

    void add(Point p) { cells_[cell_at(column_of(p.x), row_of(p.y))].push_back(p); }

    // Is a point nearer to p than `reach`? Precondition: reach <= the cell's size.
    bool any_within(Point p, double reach) const {
        for (int row = row_of(p.y - reach); row <= row_of(p.y + reach); ++row) {
            for (int column = column_of(p.x - reach); column <= column_of(p.x + reach); ++column) {
                for (const Point other : cells_[cell_at(column, row)]) {
                    if (dot(other - p, other - p) < reach * reach) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

private:
    std::size_t cell_at(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
               static_cast<std::size_t>(column);
    }
    int column_of(double x) const {
        return std::clamp(static_cast<int>((x - low_.x) / cell_), 0, columns_ - 1);
    }
    int row_of(double y) const {
        return std::clamp(static_cast<int>((y - low_.y) / cell_), 0, rows_ - 1);
    }

    Point low_;
    double cell_;
    int columns_, rows_;
    std::vector<std::vector<Point>> cells_;
};

}  // namespace farwater::sample
