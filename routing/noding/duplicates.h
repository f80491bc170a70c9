// Roads that are drawn twice. A second line on the first would look like a loop, and a dead end
// like a way through.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/road.h"
#include "routing/noding/join.h"
#include "routing/noding/vertices.h"

namespace farwater::routing {

struct Duplicate {
    std::uint32_t road = 0;
    std::uint32_t of = 0;  // a road before it that is no duplicate
    friend constexpr auto operator<=>(const Duplicate&, const Duplicate&) = default;
};

// A road is a duplicate of one before it when both have equally many vertices, in the same or the
// reverse order no farther apart than vertices inside lines join, and both lie on one level. Two
// one-way roads that lead in opposite directions are the two halves of one road, not duplicates.
// `joined` holds the pairs of vertices that join, among them all ends of duplicates. By road.
// O(pairs).
std::vector<Duplicate> find_duplicates(const std::vector<Road>& roads, const Vertices& vertices,
                                       const JoinReach& reach, const PairLists& joined);

}  // namespace farwater::routing
