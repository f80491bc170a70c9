// The slow twin of lane classes: take each piece of road away and see what still hangs together.
#pragma once

#include <cstddef>
#include <vector>

#include "tests/support/slow_routes.h"

namespace farwater::slow {

// Whether the piece is open and its ends are joined by other open pieces too.
bool on_loop(const Streets& streets, const std::vector<bool>& open, std::size_t piece);

// Whether, on two of the ways that leave the spot at least, a loop of open pieces begins within
// `reach` metres. A spot within 2 mm of the end of a piece is at its junction.
bool drive_through(const Streets& streets, const std::vector<bool>& open, Spot spot, double reach);

// The pieces that the shortest way between two spots lies along, and the one of `to`. All of
// several equal ways.
std::vector<bool> under_the_way(const Streets& streets, Spot from, Spot to);

}  // namespace farwater::slow
