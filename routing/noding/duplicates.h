// Roads that are drawn twice. A second line on the first would look like a loop, and a dead end
// like a way through.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/road.h"
#include "routing/noding/vertices.h"

namespace farwater::routing {

struct Duplicate {
    std::uint32_t road = 0;
    std::uint32_t of = 0;   // a road before it
    bool reversed = false;  // drawn from the other's end
    friend constexpr auto operator<=>(const Duplicate&, const Duplicate&) = default;
};

// A road is a duplicate of one before it when both have equally many vertices, in the same or the
// reverse order no farther apart than vertices inside lines join, and both lie on one level. Two
// one-way roads that lead in opposite directions are the two halves of one road, not duplicates;
// roads of no length are none. Every two such roads, by road. O(roads log roads), and two vertices
// looked at for any two whose middles lie under each other.
std::vector<Duplicate> drawn_alike(const std::vector<Road>& roads, const JoinReach& reach);

// Of these, each road that is a duplicate once, of the first that is none itself.
std::vector<Duplicate> first_of_each(const std::vector<Duplicate>& alike);

}  // namespace farwater::routing
