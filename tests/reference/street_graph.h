// A road network as plain arcs, the form in which general-purpose libraries take it, and a sample
// of places to drive between. Times are whole tenths of a second, so that equal means equal.
#pragma once

#include <cstdint>
#include <vector>

namespace farwater::reference {

struct StreetArc {
    std::uint32_t from = 0;
    std::uint32_t to = 0;
    std::int32_t cost = 0;
};

struct StreetGraph {
    std::uint32_t nodes = 0;
    std::vector<StreetArc> arcs;  // loops and repeated arcs as the data have them
};

struct Sample {
    std::vector<std::uint32_t> sources, targets;  // nodes, may repeat
};

inline constexpr std::int64_t unreached = -1;
using Times = std::vector<std::int64_t>;  // per source, then per target; or unreached

// The same with every arc turned round: times from A to B become those from B to A.
inline StreetGraph turned_round(StreetGraph graph) {
    for (StreetArc& arc : graph.arcs) {
        const std::uint32_t from = arc.from;
        arc.from = arc.to;
        arc.to = from;
    }
    return graph;
}

// What a search with this limit finds of the times.
inline Times within(Times times, std::int64_t limit) {
    for (std::int64_t& time : times) {
        time = time > limit ? unreached : time;
    }
    return times;
}

}  // namespace farwater::reference
