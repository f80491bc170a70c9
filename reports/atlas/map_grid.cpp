#include "reports/atlas/map_grid.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace farwater::reports {
namespace {

struct GridSide {
    double metres;
    std::string_view words;
};

constexpr std::array grid_sides{
    GridSide{500 * metres_per_foot, "500 ft"},   GridSide{1000 * metres_per_foot, "1,000 ft"},
    GridSide{0.5 * metres_per_mile, "1/2 mile"}, GridSide{metres_per_mile, "1 mile"},
    GridSide{2 * metres_per_mile, "2 miles"},    GridSide{3 * metres_per_mile, "3 miles"},
    GridSide{5 * metres_per_mile, "5 miles"},    GridSide{10 * metres_per_mile, "10 miles"},
    GridSide{20 * metres_per_mile, "20 miles"},  GridSide{50 * metres_per_mile, "50 miles"},
    GridSide{200 * metres_per_mile, "200 miles"}};
constexpr int most_columns = 8;
constexpr int most_rows = 9;

int squares(double extent, double side) {
    return std::max(1, static_cast<int>(std::ceil(extent / side - 1e-9)));
}

}  // namespace

MapGrid MapGrid::over(const Box& box) {
    const Box whole = box.empty() ? Box{{0.0, 0.0}, {0.0, 0.0}} : box;
    const double across = whole.high.x - whole.low.x;
    const double up = whole.high.y - whole.low.y;
    const auto fits = std::ranges::find_if(grid_sides, [&](const GridSide& side) {
        return across <= side.metres * most_columns && up <= side.metres * most_rows;
    });
    const GridSide& side = fits == grid_sides.end() ? grid_sides.back() : *fits;
    MapGrid grid;
    grid.side_ = side.metres;
    grid.words_ = side.words;
    grid.columns_ = std::min(most_columns, squares(across, side.metres));
    grid.rows_ = std::min(most_rows, squares(up, side.metres));
    grid.north_west_ = {(whole.low.x + whole.high.x) / 2.0 - grid.columns_ * side.metres / 2.0,
                        (whole.low.y + whole.high.y) / 2.0 + grid.rows_ * side.metres / 2.0};
    return grid;
}

int MapGrid::column_of(double x) const {
    return static_cast<int>(
        std::clamp(std::floor((x - north_west_.x) / side_), 0.0, columns_ - 1.0));
}

int MapGrid::row_of(double y) const {
    return static_cast<int>(std::clamp(std::floor((north_west_.y - y) / side_), 0.0, rows_ - 1.0));
}

std::string MapGrid::square_of(Point place) const {
    return letter(column_of(place.x)) + std::to_string(row_of(place.y) + 1);
}

}  // namespace farwater::reports
