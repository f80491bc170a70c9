#include "reports/cards/draw_sheet.h"

#include <algorithm>
#include <array>
#include <span>

#include <fmt/format.h>

#include "reports/cards/draw_map.h"
#include "reports/cards/sheet_pieces.h"

namespace farwater::reports {
namespace {

constexpr double between_columns = 12.0;
constexpr double column_width = (printed_area.width - between_columns) / 2.0;

// Letters and maps get smaller until the sheet fits on one page, but not smaller than can be read
// in a cab.
struct Scale {
    double letters, map_share;
};
constexpr std::array scales{Scale{9.0, 1.0}, Scale{8.5, 0.9}, Scale{8.0, 0.8}, Scale{7.7, 0.7},
                            Scale{7.4, 0.6}};
constexpr Scale when_none_fits{8.0, 0.9};

using SheetPieces = std::vector<PaperPiece>;

double height_of(const SheetPieces& pieces) {
    double height = 0.0;
    for (const PaperPiece& piece : pieces) {
        height += piece.height;
    }
    return height;
}

// The sheet's parts, cut to pieces for a size of letters.
struct Cut {
    SheetPieces both, left, right, foot;
};

Cut cut_up(const PageCanvas& canvas, const PrintedSheet& sheet, double size) {
    Cut cut;
    for (const SheetPart& part : sheet.parts) {
        const bool wide = part.column == SheetColumn::both || part.column == SheetColumn::foot;
        SheetPieces pieces =
            pieces_of(canvas, part, size, wide ? printed_area.width : column_width);
        SheetPieces& into = part.column == SheetColumn::both    ? cut.both
                            : part.column == SheetColumn::left  ? cut.left
                            : part.column == SheetColumn::right ? cut.right
                                                                : cut.foot;
        std::ranges::move(pieces, std::back_inserter(into));
    }
    return cut;
}

class SheetOnPaper {
public:
    SheetOnPaper(PageCanvas& canvas, const PrintedSheet& sheet, const EndsPage& ends_page)
        : canvas_(canvas), sheet_(sheet), ends_page_(ends_page) {}

    int draw() {
        canvas_.destination(sheet_.anchor);
        double top = draw_head(printed_area.top);
        top = draw_numbers(top);
        const auto fit = std::ranges::partition_point(scales, [&](const Scale& scale) {
            return !fits(cut_up(canvas_, sheet_, scale.letters), top + map_height(scale));
        });
        const Scale scale = fit == scales.end() ? when_none_fits : *fit;
        const Cut cut = cut_up(canvas_, sheet_, scale.letters);
        top = draw_maps(top, scale);
        draw_flow(cut, top);
        ends_page_();
        return pages_;
    }

private:
    double map_height(const Scale& scale) const {
        return sheet_.maps.empty() ? 0.0 : map_size.height * scale.map_share + 6.0;
    }

    static bool fits(const Cut& cut, double top) {
        return top + height_of(cut.both) + std::max(height_of(cut.left), height_of(cut.right)) +
                   height_of(cut.foot) <=
               printed_area.bottom();
    }

    // The number in its black box, title and lines beside it.
    double draw_head(double top) {
        constexpr double badge_width = 66.0;
        const double left = printed_area.left + badge_width + 8.0;
        const double width = printed_area.right() - left;
        double y = top;
        y += canvas_.text({left, y}, sheet_.title, {.size = 15.0, .bold = true}, width).height;
        for (const std::string& line : sheet_.lines) {
            y += canvas_.text({left, y}, line, {.size = 8.5}, width).height;
        }
        const double height = std::max(46.0, y - top);
        canvas_.fill({printed_area.left, top, badge_width, height}, 0.0);
        const double middle = printed_area.left + badge_width / 2.0;
        canvas_.text({middle, top + 2.0}, sheet_.kind,
                     {.size = 7.0, .bold = true, .align = Align::centre, .ink = 1.0});
        TextLook look{.size = 29.0, .bold = true, .align = Align::centre, .ink = 1.0};
        while (look.size > 5.0 && canvas_.extent(sheet_.badge, look).width > badge_width - 6.0) {
            look.size -= 0.5;
        }
        const Extent room = canvas_.extent(sheet_.badge, look);
        canvas_.text({middle, top + 9.0 + (height - 9.0 - room.height) / 2.0}, sheet_.badge, look);
        return top + height + 5.0;
    }

    double draw_numbers(double top) {
        if (sheet_.numbers.empty()) {
            return top;
        }
        const double width = printed_area.width / static_cast<double>(sheet_.numbers.size());
        double height = 0.0;
        for (std::size_t i = 0; i < sheet_.numbers.size(); ++i) {
            height = std::max(height, draw_number(sheet_.numbers[i], i, width, top));
        }
        for (std::size_t i = 0; i < sheet_.numbers.size(); ++i) {
            canvas_.frame({printed_area.left + width * static_cast<double>(i), top, width, height},
                          {.width = i == 0 ? 2.0 : 0.8});
        }
        return top + height + 6.0;
    }

    double draw_number(const BigNumber& number, std::size_t place, double width, double top) {
        const double left = printed_area.left + width * static_cast<double>(place) + 4.0;
        const double inner = width - 8.0;
        double y = top + 2.0;
        y += canvas_.text({left, y}, number.label, {.size = 7.0, .bold = true}, inner).height;
        TextLook look{.size = 23.0, .bold = true};
        const TextLook unit_look{.size = 8.0, .bold = true};
        const double unit = canvas_.extent(number.unit, unit_look).width;
        while (look.size > 5.0 && canvas_.extent(number.number, look).width + unit + 3.0 > inner) {
            look.size -= 0.5;
        }
        const Extent room = canvas_.text({left, y - 2.0}, number.number, look);
        const double unit_height = canvas_.extent(number.unit, unit_look).height;
        canvas_.text({left + room.width + 3.0, y - 2.0 + room.height - unit_height - 3.0},
                     number.unit, unit_look);
        y += room.height - 3.0;
        y += canvas_.text({left, y}, number.note, {.size = 7.0}, inner).height;
        return y - top + 3.0;
    }

    double draw_maps(double top, const Scale& scale) {
        if (sheet_.maps.empty()) {
            return top;
        }
        const double height = map_size.height * scale.map_share;
        const double width = column_width;
        double left = printed_area.left;
        for (const SiteMap& map : sheet_.maps) {
            draw_map(canvas_, map, {left, top, width, height});
            left += width + between_columns;
        }
        return top + height + 6.0;
    }

    // Returns where the new page may be written on.
    double next_page() {
        ends_page_();
        ++pages_;
        bottom_ = printed_area.bottom();
        const Extent heading = canvas_.text(
            {printed_area.left, printed_area.top},
            fmt::format("{} {}, continued: {}", sheet_.kind, sheet_.badge, sheet_.title),
            {.size = 9.0, .bold = true}, printed_area.width);
        return printed_area.top + heading.height + 6.0;
    }

    // The end of those from `first` on that fit below `top`.
    std::size_t fitting(const SheetPieces& pieces, std::size_t first, double top,
                        bool empty) const {
        return first + pieces_that_fit(std::span(pieces).subspan(first), bottom_ - top, empty);
    }

    double draw_pieces(const SheetPieces& pieces, std::size_t first, std::size_t end, double left,
                       double top) {
        for (std::size_t i = first; i < end; ++i) {
            pieces[i].draw(canvas_, {left, top});
            top += pieces[i].height;
        }
        return top;
    }

    // One list below what there is; on further pages where it takes them. Returns its bottom.
    double draw_list(const SheetPieces& pieces, double top) {
        std::size_t first = 0;
        for (bool empty = false; true; empty = true) {
            const std::size_t end = fitting(pieces, first, top, empty);
            top = draw_pieces(pieces, first, end, printed_area.left, top);
            first = end;
            if (first == pieces.size()) {
                return top;
            }
            top = next_page();
        }
    }

    // Two lists beside each other, each on its own column of every page.
    double draw_columns(const SheetPieces& left, const SheetPieces& right, double top) {
        const double second = printed_area.left + column_width + between_columns;
        std::size_t first_left = 0;
        std::size_t first_right = 0;
        for (bool empty = false; true; empty = true) {
            const std::size_t end_left = fitting(left, first_left, top, empty);
            const std::size_t end_right = fitting(right, first_right, top, empty);
            const double bottom =
                std::max(draw_pieces(left, first_left, end_left, printed_area.left, top),
                         draw_pieces(right, first_right, end_right, second, top));
            first_left = end_left;
            first_right = end_right;
            if (first_left == left.size() && first_right == right.size()) {
                return bottom;
            }
            top = next_page();
        }
    }

    // What stands at the foot, cautions, is on the first page however long the rest is.
    void draw_flow(const Cut& cut, double top) {
        const double foot = height_of(cut.foot);
        constexpr double most_foot = 200.0;
        const bool on_first = foot <= most_foot;
        bottom_ = on_first ? printed_area.bottom() - foot : bottom_;
        if (on_first) {
            draw_pieces(cut.foot, 0, cut.foot.size(), printed_area.left, bottom_);
        }
        top = draw_list(cut.both, top);
        top = draw_columns(cut.left, cut.right, top);
        if (!on_first) {
            draw_list(cut.foot, top);
        }
    }

    PageCanvas& canvas_;
    const PrintedSheet& sheet_;
    const EndsPage& ends_page_;
    int pages_ = 1;
    double bottom_ = printed_area.bottom();  // of the page that is being written on
};

}  // namespace

int draw_sheet(PageCanvas& canvas, const PrintedSheet& sheet, const EndsPage& ends_page) {
    return SheetOnPaper(canvas, sheet, ends_page).draw();
}

}  // namespace farwater::reports
