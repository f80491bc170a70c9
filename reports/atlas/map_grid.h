// Squares of a round size over the district, to find a place by: "C4".
#pragma once

#include <string>
#include <string_view>

#include "analyzer/district/plane.h"

namespace farwater::reports {

// Letters from west to east, A to H at most; numbers from north to south, 1 to 9 at most.
class MapGrid {
public:
    // The smallest round size that covers the box; a box without extent gets one square.
    static MapGrid over(const Box& box);

    // Of a place in the box; one outside gets the nearest square.
    std::string square_of(Point place) const;
    int column_of(double x) const;
    int row_of(double y) const;
    static std::string letter(int column) { return {static_cast<char>('A' + column)}; }

    int columns() const { return columns_; }
    int rows() const { return rows_; }
    double side() const { return side_; }  // metres
    Point north_west() const { return north_west_; }
    std::string_view side_in_words() const { return words_; }  // "1/2 mile"

private:
    int columns_ = 1;
    int rows_ = 1;
    double side_ = 1.0;
    Point north_west_;
    std::string_view words_;
};

}  // namespace farwater::reports
