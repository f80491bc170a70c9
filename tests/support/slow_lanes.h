// The slow twin of lane classes: take each piece of road away and see what still hangs together.
#pragma once

#include <cstddef>
#include <vector>

#include "tests/support/slow_routes.h"

namespace farwater::slow {

// Whether the piece is open and its ends are joined by other open pieces too.
bool on_loop(const Streets& streets, const std::vector<bool>& open, std::size_t piece);

struct LaneMarks {
    std::vector<Spot> turnarounds;
    std::vector<Spot> origins;
    bool from_anywhere = true;  // origins are not looked at
};

// Whether, on two of the ways that leave the spot at least, a loop of open pieces begins or a
// turnaround stands within `reach` metres; or on one of them, behind which all junctions are within
// reach and no origin is. Or whether a turnaround is right there. A spot within 2 mm of the end of
// a piece is at its junction.
bool drive_through(const Streets& streets, const std::vector<bool>& open, Spot spot, double reach,
                   const LaneMarks& marks = {});

// The pieces that the shortest way between two spots lies along, and the one of `to`. All of
// several equal ways.
std::vector<bool> under_the_way(const Streets& streets, Spot from, Spot to);

}  // namespace farwater::slow
