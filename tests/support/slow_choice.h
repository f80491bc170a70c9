// A slow, plain twin of the choice of sites: every set within number and budget is tried.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

namespace farwater::slow {

struct SiteTable {
    std::vector<std::vector<std::int64_t>> gains;  // [candidate][customer], 0 = does nothing for it
    std::vector<std::int64_t> costs;
    std::vector<bool> planned, ruled_out;
    std::size_t most_sites = std::numeric_limits<std::size_t>::max();
    std::optional<std::int64_t> budget;
};

// Of the set whose bits are on: each customer counts with the best of it.
std::int64_t gain_of_set(const SiteTable& table, std::uint32_t set);

// The most that a set gains that has all planned sites and, beside those, no more than may be had.
// At most 20 candidates.
std::int64_t best_gain(const SiteTable& table);

}  // namespace farwater::slow
