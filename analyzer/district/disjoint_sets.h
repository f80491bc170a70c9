// Which things belong together, by joining pairs.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <vector>

namespace farwater {

class DisjointSets {
public:
    explicit DisjointSets(std::size_t count) : parent_(count) {
        std::iota(parent_.begin(), parent_.end(), 0U);
    }

    // The least member of the set. Nearly O(1).
    std::uint32_t least(std::uint32_t thing) {
        while (parent_[thing] != thing) {
            parent_[thing] = parent_[parent_[thing]];
            thing = parent_[thing];
        }
        return thing;
    }

    void join(std::uint32_t a, std::uint32_t b) {
        const std::uint32_t i = least(a);
        const std::uint32_t j = least(b);
        parent_[std::max(i, j)] = std::min(i, j);
    }

private:
    std::vector<std::uint32_t> parent_;
};

}  // namespace farwater
