// What a line of portable tanks lets the draft have while siphons move water towards the draft
// tank.
#pragma once

#include <span>

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// The most that can be drawn from a line of tanks as if they were one: at this flow and below, the
// draft tank is never empty while another one holds water. `usable`: gallons above the strainer,
// the draft tank first, then by distance from it; `siphon`: what is moved between two neighbours,
// one move at a time. Infinite with fewer than two tanks; zero where nothing is moved.
//
// Loads go into the draft tank while it has room, then into the next (front first); a siphon lifts
// from a tank into the one before it, so water in tank k takes k - 1 moves. Let the draft tank, of
// a gallons, have been full for the last time, with y_k gallons in tank k. Until the others are
// empty loads go into the draft tank, and the siphon never rests: after t = sum (k - 1) y_k / T
// minutes all of them have come. The draft tank lasts so long, whatever comes meanwhile, when
//     a + sum y_k >= Q t   for all 0 <= y_k <= v_k,   that is
//     Q <= T (a + v_m + ... + v_n) / ((m - 1) v_m + ... + (n - 1) v_n)   for every m = 2 ... n.
// Two equal tanks: 2 T; three: T. (For two it is exact: full tanks and no more loads run dry
// above.) Loads put into the last tank first are moved n - 1 times, and hold T / (n - 1) only.
// Derived here; one move at a time and front first are common practice, no source. O(n).
Flow transfer_limit(std::span<const Volume> usable, Flow siphon);

}  // namespace farwater::hydraulics
