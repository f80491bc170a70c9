// Where each road is: the squares of the grid, and the pages of the atlas, that it crosses.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "reports/atlas/map_grid.h"
#include "reports/print/paper_pieces.h"

namespace farwater::reports {

struct RoadPlaces {
    std::string name;
    std::vector<std::string> squares;  // in order, none twice
    std::vector<int> pages;            // in order, none twice
};

// By name, capital letters apart; roads without a name are left out. `pages_at` may be empty. No
// stretch is passed over: places are asked for at least every quarter of a square.
std::vector<RoadPlaces> road_index(
    const District& district, const MapGrid& grid,
    const std::function<void(Point, std::vector<int>&)>& pages_at = {});

// "Mill Road" and where it is, as a piece for each.
std::vector<PaperPiece> index_pieces(const PageCanvas& canvas, const std::vector<RoadPlaces>& roads,
                                     double size, double width);

// Draws pieces down columns of an area from the first one on and takes off those that it drew.
// Returns where the last column that was begun ends.
Point fill_columns(PageCanvas& canvas, std::span<const PaperPiece>& pieces, const Rect& area,
                   int columns, double between);

}  // namespace farwater::reports
