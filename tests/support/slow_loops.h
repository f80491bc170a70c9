// The slow twin of ways out and back that share no stretch: every share-out of the pieces between
// the way out and the way back is tried.
#pragma once

#include <optional>
#include <vector>

#include "tests/support/slow_routes.h"

namespace farwater::slow {

// The least cost of going from `place` to `target` on some open pieces and back on others, parts of
// a piece on both sides of a spot being pieces of their own. None where there is none. Costs
// 2^pieces searches: for a dozen pieces. The spots must not be one.
std::optional<long> out_and_back(const Streets& streets, const std::vector<bool>& open,
                                 const PieceCosts& out, const PieceCosts& back, Spot place,
                                 Spot target);

}  // namespace farwater::slow
