// Positions sorted by a whole-number key, in time that grows with their number only.
#pragma once

#include <cstdint>
#include <vector>

namespace farwater::routing {

struct Keyed {
    std::uint32_t key = 0;
    std::uint32_t position = 0;
};

// By key; those of one key keep their order. O(n).
std::vector<Keyed> sorted_by_key(std::vector<Keyed> keyed);

}  // namespace farwater::routing
