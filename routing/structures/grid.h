// A grid of square cells without borders: cells far apart share a list where the table wraps round,
// which costs a look at a few things that are not near, never an answer. So one point that lies far
// away by mistake costs nothing.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater::routing {

struct Cell {
    std::int64_t x = 0;
    std::int64_t y = 0;
    friend constexpr bool operator==(Cell, Cell) = default;
};

// Which cell along one axis. What is beyond all maps, or no number, lies in the outermost cell.
inline std::int64_t cell_coordinate(double value, double cell_size) {
    constexpr double most = 1e15;  // beyond it a double has no whole steps
    const double at = std::floor(value / cell_size);
    return static_cast<std::int64_t>(at > -most ? std::min(at, most) : -most);
}

// Cells from `low` to `high`, both included.
struct CellRange {
    Cell low, high;

    bool contains(Cell cell) const {
        return low.x <= cell.x && cell.x <= high.x && low.y <= cell.y && cell.y <= high.y;
    }
};

// Lists of things by cell, in one array.
template <class Item>
class Grid {
public:
    // `visit(grid, put)` calls put(cell, item) for every cell of every item; of the grid it may ask
    // what cells are. It is called twice and must do the same each time. `expected` items set the
    // size of the table. O(items).
    template <class Visit>
    Grid(double cell_size, std::size_t expected, Visit visit)
        : cell_size_(cell_size), side_(table_side(expected)), begin_(side_ * side_ + 1) {
        visit(*this, [this](Cell cell, const Item&) { ++begin_[slot(cell) + 1]; });
        for (std::size_t i = 1; i < begin_.size(); ++i) {
            begin_[i] += begin_[i - 1];
        }
        items_.resize(begin_.back());
        std::vector<std::uint32_t> next(begin_.begin(), begin_.end() - 1);
        visit(*this, [&](Cell cell, const Item& item) { items_[next[slot(cell)]++] = item; });
    }

    double cell_size() const { return cell_size_; }
    Cell cell_of(Point p) const {
        return {cell_coordinate(p.x, cell_size_), cell_coordinate(p.y, cell_size_)};
    }
    CellRange around(Point p, double distance) const {
        return {cell_of({p.x - distance, p.y - distance}),
                cell_of({p.x + distance, p.y + distance})};
    }

    // What was put into the cell, and perhaps into others.
    std::span<const Item> in(Cell cell) const {
        const std::size_t at = slot(cell);
        return std::span(items_).subspan(begin_[at], begin_[at + 1] - begin_[at]);
    }

private:
    static std::uint64_t table_side(std::size_t expected) {
        std::uint64_t side = 4;
        while (side * side < expected && side < 8192) {
            side *= 2;
        }
        return side;
    }
    std::size_t slot(Cell cell) const {
        const auto x = static_cast<std::uint64_t>(cell.x) & (side_ - 1);
        const auto y = static_cast<std::uint64_t>(cell.y) & (side_ - 1);
        return static_cast<std::size_t>(y * side_ + x);
    }

    double cell_size_;
    std::uint64_t side_;
    std::vector<std::uint32_t> begin_;
    std::vector<Item> items_;
};

}  // namespace farwater::routing
