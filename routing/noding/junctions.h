// Which places of the road lines are one junction.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/plane.h"
#include "analyzer/parallel/work.h"
#include "routing/noding/crossings.h"
#include "routing/noding/duplicates.h"

namespace farwater::routing {

// A junction inside a segment.
struct Cut {
    LinePlace place;
    std::uint32_t node = 0;
};

// Two roads (or one with itself, then of equal numbers) that share no vertex where they meet.
struct Crossing {
    std::uint32_t first = 0;   // road; of an end or vertex that touches a line, whose it is
    std::uint32_t second = 0;  // road
    std::uint32_t node = 0;
    MeetingKind kind = MeetingKind::crosses;
    friend constexpr auto operator<=>(const Crossing&, const Crossing&) = default;
};

struct Junctions {
    std::vector<std::uint32_t> first_vertex;  // per road, and one more: vertices numbered through
    std::vector<std::uint32_t> node_of;       // per vertex; not_a_junction inside a line
    std::vector<Cut> cuts;                    // by place
    std::vector<Point> nodes;                 // the least point, by x then y, of those that joined
    std::vector<Duplicate> duplicates;        // by road
    std::vector<Crossing> crossings;          // sorted; each pair of roads once at a node
    std::vector<std::uint32_t> apart;  // per road: which are connected when crossings are not
                                       // joined; empty where there are none

    static constexpr std::uint32_t not_a_junction = UINT32_MAX;
};

// The rules are those of build_network. Roads of no length and duplicates have no junctions. Nodes
// are in spatial order. Stopped early: empty.
Junctions find_junctions(const std::vector<Road>& roads, const Assumptions& assumptions,
                         const Work& work);

}  // namespace farwater::routing
