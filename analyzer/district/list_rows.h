// Where the lists of rows begin and end in one store of items.
#pragma once

#include <cstddef>
#include <cstdint>
#include <ranges>
#include <span>
#include <utility>
#include <vector>

namespace farwater {

// 8 bytes a row.
class ListRows {
public:
    std::size_t size() const { return rows_.size(); }
    std::size_t first_of(std::size_t row) const { return rows_[row].begin; }
    auto items_of(std::size_t row) const {
        return std::views::iota(rows_[row].begin, rows_[row].end);
    }

    // What was stored since the last row was closed is the next row; `items` are stored in all.
    void close_row(std::size_t items) {
        rows_.push_back({rows_.empty() ? 0 : rows_.back().end, static_cast<std::uint32_t>(items)});
    }

    // Row i is then what row order[i] was; after that no row can be closed. Items stay where they
    // are.
    void put_in_order(std::span<const std::uint32_t> order) {
        std::vector<Row> rows;
        rows.reserve(order.size());
        for (const std::uint32_t row : order) {
            rows.push_back(rows_[row]);
        }
        rows_ = std::move(rows);
    }

private:
    struct Row {
        std::uint32_t begin = 0, end = 0;
    };
    std::vector<Row> rows_;
};

}  // namespace farwater
