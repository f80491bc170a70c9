// The atlas: an overview that says which page is where, the pages, the road index.
#include <algorithm>

#include <fmt/format.h>

#include "reports/atlas/area_map.h"
#include "reports/atlas/atlas.h"
#include "reports/atlas/map_legend.h"
#include "reports/atlas/page_tiles.h"
#include "reports/atlas/road_index.h"
#include "reports/cards/book_words.h"
#include "reports/cautions.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

constexpr PageSize atlas_paper{.width = 1224.0, .height = 792.0};  // 17 x 11 in
constexpr double page_inches_across = 15.75;
constexpr double page_inches_down = 9.5;
constexpr double atlas_margin = 24.0;
constexpr Rect page_map{.left = (1224.0 - page_inches_across * 72.0) / 2.0,
                        .top = 60.0,
                        .width = page_inches_across * 72.0,
                        .height = page_inches_down * 72.0};
constexpr Rect atlas_head{
    .left = atlas_margin, .top = 20.0, .width = 1224.0 - 2 * atlas_margin, .height = 24.0};
constexpr Ink tile_ink = Ink::rgb(0xa3123a);
constexpr int index_columns_on_page = 7;

std::string anchor_of_page(int number) { return fmt::format("page-{}", number); }

class AtlasPdf {
public:
    AtlasPdf(const CardBook& book, const ByteSink& sink)
        : book_(book),
          grid_(MapGrid::over(box_of_book(book))),
          tiles_(page_tiles(book, page_inches_across, page_inches_down, most_atlas_pages)),
          map_(book, grid_),
          canvas_(PageCanvas::pdf(atlas_paper, facts_of_book(book, "Atlas"), sink)) {}

    bool write(const Work& work) {
        draw_overview();
        for (int row = 0; row < tiles_.rows; ++row) {
            for (int column = 0; column < tiles_.columns && !work.stopped(); ++column) {
                if (const auto number = tiles_.number(column, row)) {
                    work.step("atlas pages", static_cast<std::size_t>(*number), tiles_.pages());
                    draw_page(column, row, *number);
                }
            }
        }
        draw_index();
        return canvas_.finish();
    }

private:
    void draw_overview() {
        canvas_.outline(0, "Overview", "overview");
        canvas_.destination("overview");
        draw_map_head(canvas_, book_, "atlas, overview of its pages", atlas_head, 1.0);
        const Rect rect{atlas_margin + 16.0, page_map.top, 900.0, page_map.height - 6.0};
        const MapPlacing place(box_of_tiles(), rect);
        map_.draw_ground(canvas_, place, rect, 0.6);
        draw_tiles(place);
        const LegendSize look{.width = 238.0, .size = 0.95};
        const double left = rect.right() + 24.0;
        double y = draw_scale(canvas_, tiles_.feet_per_inch, grid_.side_in_words(),
                              {left, rect.top}, look);
        y += canvas_
                 .text({left, y}, "This bar is for the pages, not for the overview.", {.size = 7.0},
                       look.width)
                 .height;
        y = draw_legend(canvas_, book_, {left, y}, look);
        draw_cautions(canvas_, book_, {left, y + 4.0}, look);
        draw_foot();
        canvas_.end_page();
    }

    Box box_of_tiles() const {
        Box box;
        box.include(tiles_.ground(0, 0).low);
        box.include(tiles_.ground(0, 0).high);
        const Box last = tiles_.ground(tiles_.columns - 1, tiles_.rows - 1);
        box.include(last.low);
        box.include(last.high);
        return box;
    }

    void draw_tiles(const MapPlacing& place) {
        for (int row = 0; row < tiles_.rows; ++row) {
            for (int column = 0; column < tiles_.columns; ++column) {
                const auto number = tiles_.number(column, row);
                if (!number) {
                    continue;
                }
                const Box ground = tiles_.ground(column, row);
                const Point low = place(ground.low);
                const Point high = place(ground.high);
                const Rect tile{low.x, high.y, high.x - low.x, low.y - high.y};
                canvas_.frame(tile, {.width = 0.9, .ink = tile_ink});
                canvas_.edged({tile.left + tile.width / 2.0, tile.top + tile.height / 2.0},
                              std::to_string(*number),
                              {.size = std::clamp(tile.height * 0.3, 7.0, 22.0),
                               .bold = true,
                               .ink = tile_ink});
                canvas_.link(tile, anchor_of_page(*number));
            }
        }
    }

    void draw_page(int column, int row, int number) {
        canvas_.outline(0, fmt::format("Page {}", number), anchor_of_page(number));
        canvas_.destination(anchor_of_page(number));
        draw_map_head(canvas_, book_, fmt::format("page {}", number), atlas_head, 1.0);
        const MapPlacing place(tiles_.ground(column, row), page_map);
        map_.draw(canvas_, place, page_map, 1.0);
        const double middle = page_map.left + page_map.width / 2.0;
        const double half_way = page_map.top + page_map.height / 2.0;
        draw_neighbour(tiles_.number(column, row - 1), {middle, page_map.top}, "▲ page {}");
        draw_neighbour(tiles_.number(column, row + 1), {middle, page_map.bottom()}, "▼ page {}");
        draw_neighbour(tiles_.number(column - 1, row), {page_map.left, half_way}, "◀ {}");
        draw_neighbour(tiles_.number(column + 1, row), {page_map.right(), half_way}, "{} ▶");
        draw_foot();
        canvas_.end_page();
    }

    // A plate on the page's edge that says which page goes on there, and leads to it.
    void draw_neighbour(std::optional<int> number, Point edge, const char* words) {
        if (!number) {
            return;
        }
        const std::string text = fmt::format(fmt::runtime(words), *number);
        const TextLook look{.size = 10.0, .bold = true, .align = Align::centre, .ink = 1.0};
        const Extent room = canvas_.extent(text, look);
        const Rect plate{std::clamp(edge.x - room.width / 2.0 - 4.0, page_map.left,
                                    page_map.right() - room.width - 8.0),
                         std::clamp(edge.y - room.height / 2.0 - 1.0, page_map.top,
                                    page_map.bottom() - room.height - 2.0),
                         room.width + 8.0, room.height + 2.0};
        canvas_.fill(plate, tile_ink);
        canvas_.text({plate.left + plate.width / 2.0, plate.top + 1.0}, text, look);
        canvas_.link(plate, anchor_of_page(*number));
    }

    void draw_index() {
        const Rect area{atlas_margin, 74.0, atlas_head.width, 672.0};
        constexpr double between = 12.0;
        const double column =
            (area.width - between * (index_columns_on_page - 1)) / index_columns_on_page;
        const auto pieces = index_pieces(canvas_,
                                         road_index(book_.district(), grid_,
                                                    [&](Point place, std::vector<int>& pages) {
                                                        tiles_.pages_at(place, pages);
                                                    }),
                                         7.5, column);
        std::span<const PaperPiece> rest(pieces);
        for (bool first = true; !rest.empty(); first = false) {
            if (first) {
                canvas_.outline(0, "Roads", "roads");
                canvas_.destination("roads");
            }
            draw_map_head(canvas_, book_, "atlas, roads with their squares and pages", atlas_head,
                          1.0);
            fill_columns(canvas_, rest, area, index_columns_on_page, between);
            draw_foot();
            canvas_.end_page();
        }
    }

    void draw_foot() {
        ++sheets_;
        const TextLook look{.size = 7.0, .ink = 0.2};
        const double top = page_map.bottom() + 14.0;
        std::string words =
            fmt::format("{} {} Signs: see the overview. 1 in = {} ft.", cautions.front(),
                        cautions[1], in_thousands(tiles_.feet_per_inch));
        canvas_.text({atlas_margin, top}, words, look, atlas_head.width - 80.0);
        TextLook right = look;
        right.align = Align::right;
        canvas_.text({atlas_head.right(), top}, fmt::format("sheet {}", sheets_), right);
    }

    const CardBook& book_;
    MapGrid grid_;
    PageTiles tiles_;
    AreaMap map_;
    PageCanvas canvas_;
    int sheets_ = 0;
};

}  // namespace

bool write_atlas(const CardBook& book, const Work& work, const ByteSink& sink) {
    return AtlasPdf(book, sink).write(work);
}

}  // namespace farwater::reports
