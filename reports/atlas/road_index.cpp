#include "reports/atlas/road_index.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "reports/cards/card_words.h"

namespace farwater::reports {
namespace {

std::string in_small_letters(std::string text) {
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

void at_steps(const Polyline& line, double step, const std::function<void(Point)>& see) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        see(line[i]);
        if (i + 1 == line.size()) {
            return;
        }
        const Point from = line[i];
        const Point to = line[i + 1];
        const double parts = std::ceil(std::sqrt(distance_squared(from, to)) / step);
        for (double part = 1.0; part < parts; ++part) {
            see({from.x + (to.x - from.x) * part / parts, from.y + (to.y - from.y) * part / parts});
        }
    }
}

struct Crossed {
    std::string name;
    std::set<std::string> squares;
    std::set<int> pages;
};

}  // namespace

std::vector<RoadPlaces> road_index(const District& district, const MapGrid& grid,
                                   const std::function<void(Point, std::vector<int>&)>& pages_at) {
    std::map<std::string, Crossed> roads;
    std::vector<int> pages;
    for (const Road& road : district.roads) {
        if (road.name.empty()) {
            continue;
        }
        const std::string name = name_words(road.name);
        Crossed& crossed = roads[in_small_letters(name)];
        crossed.name = crossed.name.empty() ? name : crossed.name;
        at_steps(road.line, grid.side() / 4.0, [&](Point point) {
            crossed.squares.insert(grid.square_of(point));
            if (pages_at) {
                pages.clear();
                pages_at(point, pages);
                crossed.pages.insert(pages.begin(), pages.end());
            }
        });
    }
    std::vector<RoadPlaces> index;
    for (auto& [key, crossed] : roads) {
        index.push_back({std::move(crossed.name),
                         {crossed.squares.begin(), crossed.squares.end()},
                         {crossed.pages.begin(), crossed.pages.end()}});
    }
    return index;
}

std::vector<PaperPiece> index_pieces(const PageCanvas& canvas, const std::vector<RoadPlaces>& roads,
                                     double size, double width) {
    constexpr double indent = 6.0;
    const TextLook bold{.size = size, .bold = true};
    const TextLook plain{.size = size};
    std::vector<PaperPiece> pieces;
    for (const RoadPlaces& road : roads) {
        std::string where = fmt::format("{}", fmt::join(road.squares, " "));
        if (!road.pages.empty()) {
            where += fmt::format("   page {}", fmt::join(road.pages, ", "));
        }
        const double name = canvas.extent(road.name, bold, width).height;
        const double below = canvas.extent(where, plain, width - indent).height;
        pieces.push_back({.height = name + below + 1.5,
                          .draw =
                              [=, title = road.name](PageCanvas& on, Point at) {
                                  on.text(at, title, bold, width);
                                  on.text({at.x + indent, at.y + name}, where, plain,
                                          width - indent);
                              },
                          .repeats = {}});
    }
    return pieces;
}

Point fill_columns(PageCanvas& canvas, std::span<const PaperPiece>& pieces, const Rect& area,
                   int columns, double between) {
    const double width = (area.width - between * (columns - 1)) / columns;
    Point end{area.left, area.top};
    for (int column = 0; column < columns && !pieces.empty(); ++column) {
        end = {area.left + column * (width + between), area.top};
        const std::size_t count = pieces_that_fit(pieces, area.height, true);
        for (const PaperPiece& piece : pieces.first(count)) {
            piece.draw(canvas, end);
            end.y += piece.height;
        }
        pieces = pieces.subspan(count);
    }
    return end;
}

}  // namespace farwater::reports
