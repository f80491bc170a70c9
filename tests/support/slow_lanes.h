// The slow twin of lane classes: take each piece of road away and see what still hangs together.
#pragma once

#include <cstddef>
#include <functional>
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

// From a spot on to the nearest place where two can pass: a junction of three open pieces, or of
// one that is not narrow. Of two ways the longer one, but for ways that begin on a piece that is
// not open or lead to no such place; where there is none, to the end of the road. Zero where the
// spot's piece is not narrow. `minutes`: what so many metres of a piece take.
double single_file_minutes(const Streets& streets, const std::vector<bool>& open,
                           const std::vector<bool>& narrow,
                           const std::function<double(std::size_t piece, double metres)>& minutes,
                           Spot spot);

// The pieces that the shortest way between two spots lies along, and the one of `to`. All of
// several equal ways.
std::vector<bool> under_the_way(const Streets& streets, Spot from, Spot to);

}  // namespace farwater::slow
