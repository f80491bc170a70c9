// Positions sorted by a whole-number key, in time that grows with their number only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace farwater::routing {

struct Keyed {
    std::uint32_t key = 0;
    std::uint32_t position = 0;
};

// By key; those of one key keep their order. O(n).
std::vector<Keyed> sorted_by_key(std::vector<Keyed> keyed);

// Calls visit(all entries of one key) for each key of two entries or more whose first entry lies in
// [begin, end): so chunks of the sorted entries can be visited apart from each other.
template <class Visit>
void visit_keys(std::span<const Keyed> sorted, std::size_t begin, std::size_t end, Visit visit) {
    while (begin > 0 && begin < end && sorted[begin].key == sorted[begin - 1].key) {
        ++begin;  // the key began in the chunk before
    }
    while (begin < end) {
        std::size_t after = begin + 1;
        while (after < sorted.size() && sorted[after].key == sorted[begin].key) {
            ++after;
        }
        if (after - begin > 1) {
            visit(sorted.subspan(begin, after - begin));
        }
        begin = after;
    }
}

}  // namespace farwater::routing
