#include "reports/cards/index_columns.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/cautions.h"

namespace farwater::reports {
namespace {

constexpr int index_columns = 3;
constexpr double index_gap = 14.0;
constexpr double index_width =
    (printed_area.width - index_gap * (index_columns - 1)) / index_columns;
constexpr double card_room = 30.0;  // of the card's number, at the column's right
constexpr TextLook road_look{.size = 9.0, .bold = true};
constexpr TextLook house_look{.size = 8.5};
constexpr TextLook card_look{.size = 9.5, .bold = true, .align = Align::right};
constexpr std::size_t most_houses = 60;  // in one piece, so that a piece fits into a column

class IndexPages {
public:
    IndexPages(PageCanvas& canvas, const CardBook& book, const EndsPage& ends_page)
        : canvas_(canvas), book_(book), ends_page_(ends_page) {}

    void draw(const std::vector<IndexRoad>& roads) {
        canvas_.destination("index");
        head();
        for (const IndexRoad& road : roads) {
            draw_road(road);
        }
        ends_page_();
    }

private:
    void head() {
        double y = printed_area.top;
        y += canvas_
                 .text({printed_area.left, y}, "ADDRESS INDEX: house number, then card",
                       {.size = 15.0, .bold = true}, printed_area.width)
                 .height;
        for (const std::string& line : words_before_index(book_)) {
            y += canvas_.text({printed_area.left, y}, line, {.size = 8.0}, printed_area.width)
                     .height;
        }
        top_ = y + 8.0;
        y_ = top_;
    }

    double left() const {
        return printed_area.left + static_cast<double>(column_) * (index_width + index_gap);
    }

    // Makes room for that much; true where it began a new column.
    bool make_room(double height) {
        if (y_ + height <= printed_area.bottom()) {
            return false;
        }
        if (++column_ == index_columns) {
            ends_page_();
            column_ = 0;
            top_ = printed_area.top;
        }
        y_ = top_;
        return true;
    }

    void road_name(const std::string& name) {
        y_ += canvas_.text({left(), y_}, name, road_look, index_width).height + 1.0;
    }

    void draw_road(const IndexRoad& road) {
        const double heading = canvas_.extent(road.name, road_look, index_width).height + 1.0;
        constexpr double some_houses = 26.0;
        make_room(heading + some_houses);
        road_name(road.name);
        for (const IndexEntry& entry : road.entries) {
            for (std::size_t first = 0; first < entry.houses.size(); first += most_houses) {
                draw_entry(road, entry, first);
            }
        }
        y_ += 4.0;
    }

    static std::string houses_in_words(const IndexEntry& entry, std::size_t first) {
        std::string text;
        const std::size_t end = std::min(entry.houses.size(), first + most_houses);
        for (std::size_t i = first; i < end; ++i) {
            text += (text.empty() ? "" : ", ") + entry.houses[i];
        }
        return text;
    }

    void draw_entry(const IndexRoad& road, const IndexEntry& entry, std::size_t first) {
        const std::string houses = houses_in_words(entry, first);
        const double room = index_width - (entry.card ? card_room : 0.0) - 6.0;
        const double height = canvas_.extent(houses, house_look, room).height;
        const double below =
            entry.card ? 0.0 : canvas_.extent(entry.instead, house_look, room - 8.0).height;
        const std::string continued = road.name + ", continued";
        if (make_room(height + below + 1.5)) {
            road_name(continued);
        }
        canvas_.text({left() + 6.0, y_}, houses, house_look, room);
        if (entry.card) {
            const std::string number = fmt::format("{}", *entry.card + 1);
            const double right = left() + index_width;
            canvas_.text({right, y_ - 0.5}, number, card_look);
            canvas_.link({left(), y_, index_width, height}, card_anchor(*entry.card));
        } else {
            canvas_.text({left() + 14.0, y_ + height}, entry.instead, house_look, room - 8.0);
        }
        y_ += height + below + 1.5;
        canvas_.line({{left() + 6.0, y_ - 0.8}, {left() + index_width, y_ - 0.8}},
                     {.width = 0.3, .ink = 0.6});
    }

    PageCanvas& canvas_;
    const CardBook& book_;
    const EndsPage& ends_page_;
    int column_ = 0;
    double top_ = 0.0;
    double y_ = 0.0;
};

}  // namespace

std::vector<std::string> words_before_index(const CardBook& book) {
    std::vector<std::string> lines{
        fmt::format("{}: {}. For the department; not for the public.",
                    name_words(book.district().name), plural(book.sites.size(), "card")),
        "Planning figures: prove them by a timed drill. Local code and the authority having "
        "jurisdiction go first. Every card shows the worst season and period of its worst place."};
    if (std::string what_if = what_if_sentence(book.district()); !what_if.empty()) {
        lines.push_back(std::move(what_if));
    }
    if (const std::size_t left_out = sites_left_out(book); left_out > 0) {
        lines.push_back(fmt::format(
            "{} that serve the fewest places have no card; their houses stand below without one.",
            plural(left_out, "dump site")));
    }
    const std::size_t sources = book.findings.water.counted.size();
    if (const std::size_t pages = sources_with_page(book).size(); pages < sources) {
        lines.push_back(fmt::format(
            "{} without a page: hydrants that fill for no place, or those for the fewest.",
            plural(sources - pages, "source")));
    }
    return lines;
}

void draw_index_pages(PageCanvas& canvas, const CardBook& book, const std::vector<IndexRoad>& roads,
                      const EndsPage& ends_page) {
    IndexPages(canvas, book, ends_page).draw(roads);
}

}  // namespace farwater::reports
