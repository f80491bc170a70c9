// Where road lines meet that share no vertex there.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/road.h"
#include "analyzer/parallel/work.h"
#include "routing/noding/vertices.h"

namespace farwater::routing {

// A place on a road's line: so many metres beyond a vertex on the way to the next; 0 = the vertex.
struct LinePlace {
    std::uint32_t vertex = 0;  // of all roads' vertices numbered through
    double beyond = 0.0;
    friend constexpr auto operator<=>(const LinePlace&, const LinePlace&) = default;
};

enum class MeetingKind : std::uint8_t { crosses, ends_on, touches };

// One of the two places is a vertex, or the lines cross.
struct Meeting {
    LinePlace a, b;  // a < b; of a line that meets itself both lie on it
    Point at;
    MeetingKind kind = MeetingKind::crosses;
    friend constexpr auto operator<=>(const Meeting&, const Meeting&) = default;
};

// All places where
// - two segments cross, and no end of either is within reach of the other; or
// - a vertex is within reach of the inside of a segment and of neither of its ends. It meets the
//   nearest place of the segment, or the segment's end that lies within `merged_within` of it.
// An end's reach is join_tolerance, an inner vertex's that of vertices inside lines, both at least
// 1 mm. No road is looked at that takes no part, and none meets another unless neither is a bridge
// or a tunnel and both have one level. What a line meets within the shortest loop along itself is
// no meeting. Where a vertex is within reach of two neighbouring segments it meets the nearer.
// Sorted; the same for any order of roads but for the numbers of vertices. Stopped early: not
// complete. O(segments), while few lie in one place.
std::vector<Meeting> find_crossings(const std::vector<Road>& roads, const Vertices& vertices,
                                    const JoinReach& reach, const Work& work);

// Places of one road that lie no farther apart along a segment are one, so that a crossing makes no
// crumb of road.
double merged_within(const JoinReach& reach);

}  // namespace farwater::routing
