// The pages of the atlas as tiles over the district: those with nothing on them have no number.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "reports/cards/card_book.h"

namespace farwater::reports {

struct PageTiles {
    int feet_per_inch = 0;
    Point north_west;
    double across = 0.0, down = 0.0;            // of the ground on a page, metres
    double step_across = 0.0, step_down = 0.0;  // from page to page; less, so that they overlap
    int columns = 0, rows = 0;
    std::vector<std::optional<int>> numbers;  // by row, then column; from 1

    std::optional<int> number(int column, int row) const;  // none outside, too
    Box ground(int column, int row) const;
    // The pages on which a place is seen; at most four.
    void pages_at(Point place, std::vector<int>& pages) const;
    std::size_t pages() const;
};

// At the largest round scale, 500 ft to the inch or coarser, that needs few pages of that many
// inches: at most 24, or from 1,000 ft to the inch on at most `most`. What the pages must show:
// roads, houses, water and stations.
PageTiles page_tiles(const CardBook& book, double inches_across, double inches_down,
                     std::size_t most);

}  // namespace farwater::reports
