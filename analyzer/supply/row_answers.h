// The answers of some of a district's rows, found by their row.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "analyzer/supply/assessment.h"

namespace farwater::supply {

class RowAnswers {
public:
    // Unknown, all of them. `rows`, ascending, must outlive it.
    explicit RowAnswers(std::span<const std::uint32_t> rows) : rows_(rows), answers_(rows.size()) {}

    std::span<const std::uint32_t> rows() const { return rows_; }
    std::size_t size() const { return rows_.size(); }

    // Where a row's answer stands. Precondition: it is one of them. O(log n).
    std::size_t place_of(std::size_t row) const {
        return static_cast<std::size_t>(std::ranges::lower_bound(rows_, row) - rows_.begin());
    }
    ParcelSupply& of_row(std::size_t row) { return answers_[place_of(row)]; }
    const ParcelSupply& of_row(std::size_t row) const { return answers_[place_of(row)]; }

    // In the order of the rows.
    std::vector<ParcelSupply>& all() { return answers_; }
    const std::vector<ParcelSupply>& all() const { return answers_; }

private:
    std::span<const std::uint32_t> rows_;
    std::vector<ParcelSupply> answers_;
};

}  // namespace farwater::supply
