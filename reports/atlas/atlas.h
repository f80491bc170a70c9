// The district on paper: one large sheet for the station's wall, and pages of 11 x 17 in for the
// cab. Places have the numbers that they have on the run cards.
#pragma once

#include "reports/cards/card_book.h"

namespace farwater::reports {

// 36 x 24 in or upright, at the largest round scale that fits; the road index goes on on further
// sheets where it must. The same bytes for the same book. False: it could not be made.
bool write_wall_sheet(const CardBook& book, const ByteSink& sink);

// An overview, then at most most_atlas_pages maps at one scale, each with its neighbours' numbers,
// then the road index. O(pages x (roads + parcels)).
inline constexpr std::size_t most_atlas_pages = 60;
bool write_atlas(const CardBook& book, const Work& work, const ByteSink& sink);

}  // namespace farwater::reports
