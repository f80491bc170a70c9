// What the signs of a map mean, its scale, its cautions, and where its data come from.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "reports/cards/card_book.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// A round scale: so many feet of ground to the inch of paper.
std::span<const int> map_scales();
inline double points_per_metre(int feet_per_inch) {
    return 72.0 / (feet_per_inch * metres_per_foot);
}

struct LegendSize {
    double width = 200.0;
    double size = 1.0;  // of signs and letters, as on the map
};

// Down from the point; returns where it ends. Properties are counted by state.
double draw_legend(PageCanvas& canvas, const CardBook& book, Point top_left,
                   const LegendSize& look);

// A bar in miles or feet at that scale, with the scale in words and an arrow to the north.
double draw_scale(PageCanvas& canvas, int feet_per_inch, std::string_view grid_side, Point top_left,
                  const LegendSize& look);

double draw_cautions(PageCanvas& canvas, const CardBook& book, Point top_left,
                     const LegendSize& look);

// Title, data's date, program and district file, across the top. Returns where it ends.
double draw_map_head(PageCanvas& canvas, const CardBook& book, const std::string& title,
                     const Rect& band, double size);

}  // namespace farwater::reports
