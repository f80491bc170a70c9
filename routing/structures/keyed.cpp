#include "routing/structures/keyed.h"

#include <numeric>

namespace farwater::routing {

// A counting sort for each of three parts of the key.
std::vector<Keyed> sorted_by_key(std::vector<Keyed> keyed) {
    constexpr unsigned bits = 11;
    constexpr std::uint32_t mask = (1U << bits) - 1;
    std::vector<Keyed> sorted(keyed.size());
    for (unsigned shift = 0; shift < 32; shift += bits) {
        std::vector<std::uint32_t> next(mask + 2, 0);
        for (const Keyed& one : keyed) {
            ++next[((one.key >> shift) & mask) + 1];
        }
        std::partial_sum(next.begin(), next.end(), next.begin());
        for (const Keyed& one : keyed) {
            sorted[next[(one.key >> shift) & mask]++] = one;
        }
        keyed.swap(sorted);
    }
    return keyed;
}

}  // namespace farwater::routing
