// One large sheet: the map, a panel beside it with what it means, and where each road is.
#include <algorithm>

#include <fmt/format.h>

#include "reports/atlas/area_map.h"
#include "reports/atlas/atlas.h"
#include "reports/atlas/map_legend.h"
#include "reports/atlas/road_index.h"
#include "reports/cards/book_words.h"

namespace farwater::reports {
namespace {

constexpr double sheet_margin = 30.0;
constexpr double panel_width = 400.0;
constexpr double grid_margin = 22.0;   // for the grid's letters and numbers
constexpr double inner_margin = 14.0;  // between the outermost thing and the frame
constexpr double wall_size = 1.2;      // it is read from farther away than a page
constexpr int index_columns_in_panel = 3;
constexpr double index_letters = 7.5;
constexpr double between_index = 10.0;

struct WallLayout {
    PageSize paper;
    int feet_per_inch = 0;

    Rect head() const { return {sheet_margin, sheet_margin, paper.width - 2 * sheet_margin, 34.0}; }
    Rect map() const {
        const double top = head().bottom() + grid_margin;
        return {sheet_margin + grid_margin, top,
                paper.width - 2 * sheet_margin - panel_width - 2 * grid_margin - 10.0,
                paper.height - sheet_margin - grid_margin - top};
    }
    Rect panel() const {
        const double left = paper.width - sheet_margin - panel_width;
        return {left, head().bottom() + 6.0, panel_width,
                paper.height - sheet_margin - head().bottom() - 6.0};
    }
};

// The largest round scale at which the box fits; the coarsest where none does.
int largest_scale(const Box& box, const Rect& map) {
    const auto fits = std::ranges::find_if(map_scales(), [&](int feet) {
        const double scale = points_per_metre(feet);
        return (box.high.x - box.low.x) * scale <= map.width - 2.0 * inner_margin &&
               (box.high.y - box.low.y) * scale <= map.height - 2.0 * inner_margin;
    });
    return fits == map_scales().end() ? map_scales().back() : *fits;
}

// Lying or upright, as it shows the ground larger.
WallLayout layout_of(const Box& box) {
    WallLayout lying{.paper = {.width = 2592.0, .height = 1728.0}};
    WallLayout upright{.paper = {.width = 1728.0, .height = 2592.0}};
    lying.feet_per_inch = largest_scale(box, lying.map());
    upright.feet_per_inch = largest_scale(box, upright.map());
    return upright.feet_per_inch < lying.feet_per_inch ? upright : lying;
}

// Round the box's middle, as much ground as the paper holds.
MapPlacing placing_of(const Box& box, const Rect& map, int feet_per_inch) {
    const double scale = points_per_metre(feet_per_inch);
    const Point middle{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0};
    const double across = map.width / scale / 2.0;
    const double up = map.height / scale / 2.0;
    return {Box{{middle.x - across, middle.y - up}, {middle.x + across, middle.y + up}}, map};
}

class WallSheet {
public:
    WallSheet(const CardBook& book, const ByteSink& sink)
        : book_(book),
          box_(box_of_book(book)),
          grid_(MapGrid::over(box_)),
          layout_(layout_of(box_)),
          canvas_(PageCanvas::pdf(layout_.paper, facts_of_book(book, "Wall sheet"), sink)) {}

    bool write() {
        const Rect map = layout_.map();
        draw_map_head(canvas_, book_, "water for fire, property by property", layout_.head(), 1.6);
        AreaMap(book_, grid_)
            .draw(canvas_, placing_of(box_, map, layout_.feet_per_inch), map, wall_size);
        const double column =
            (panel_width - between_index * (index_columns_in_panel - 1)) / index_columns_in_panel;
        const auto pieces =
            index_pieces(canvas_, road_index(book_.district(), grid_), index_letters, column);
        std::span<const PaperPiece> rest(pieces);
        draw_panel(rest);
        canvas_.end_page();
        while (!rest.empty()) {
            draw_further_index(rest, column);
        }
        return canvas_.finish();
    }

private:
    void draw_panel(std::span<const PaperPiece>& rest) {
        const Rect panel = layout_.panel();
        const LegendSize look{.width = panel.width, .size = wall_size};
        double y = draw_scale(canvas_, layout_.feet_per_inch, grid_.side_in_words(),
                              {panel.left, panel.top + 4.0}, look);
        y = draw_legend(canvas_, book_, {panel.left, y}, look);
        y = draw_cautions(canvas_, book_, {panel.left, y + 6.0}, look) + 8.0;
        y += draw_index_title({panel.left, y}, panel.width);
        fill_columns(canvas_, rest, {panel.left, y, panel.width, panel.bottom() - y},
                     index_columns_in_panel, between_index);
    }

    double draw_index_title(Point at, double width) {
        return canvas_
                   .text(at, "Roads, with the squares that they cross",
                         {.size = 12.0, .bold = true}, width)
                   .height +
               4.0;
    }

    void draw_further_index(std::span<const PaperPiece>& rest, double column) {
        double y =
            draw_map_head(canvas_, book_, "wall sheet, roads continued", layout_.head(), 1.6);
        y += draw_index_title({sheet_margin, y + 6.0}, layout_.head().width) + 6.0;
        const Rect area{sheet_margin, y, layout_.paper.width - 2 * sheet_margin,
                        layout_.paper.height - sheet_margin - y};
        const int columns =
            static_cast<int>((area.width + between_index) / (column + between_index));
        const double width = columns * (column + between_index) - between_index;
        fill_columns(canvas_, rest, {area.left, area.top, width, area.height}, columns,
                     between_index);
        canvas_.end_page();
    }

    const CardBook& book_;
    Box box_;
    MapGrid grid_;
    WallLayout layout_;
    PageCanvas canvas_;
};

}  // namespace

bool write_wall_sheet(const CardBook& book, const ByteSink& sink) {
    return WallSheet(book, sink).write();
}

}  // namespace farwater::reports
