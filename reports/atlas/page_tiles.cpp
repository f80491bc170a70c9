#include "reports/atlas/page_tiles.h"

#include <algorithm>
#include <cmath>

#include "reports/atlas/area_map.h"
#include "reports/atlas/map_legend.h"

namespace farwater::reports {
namespace {

std::size_t position_of(int column, int row, int columns) {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
}

constexpr double overlap = 0.04;  // of a page

int tiles_over(double extent, double size, double step) {
    return extent <= size ? 1 : 1 + static_cast<int>(std::ceil((extent - size) / step));
}

// The numbers of columns or rows that a place at that distance lies on.
struct Span {
    int first, last;
};
Span tiles_at(double distance, double size, double step, int count) {
    const int first = static_cast<int>(std::ceil((distance - size) / step));
    const int last = static_cast<int>(std::floor(distance / step));
    return {std::clamp(first, 0, count - 1), std::clamp(last, 0, count - 1)};
}

class TilesInUse {
public:
    explicit TilesInUse(PageTiles& tiles)
        : tiles_(tiles),
          used_(static_cast<std::size_t>(tiles.columns) * static_cast<std::size_t>(tiles.rows)) {}

    void see(const Box& box) {
        const Span columns{tiles_at(box.low.x - tiles_.north_west.x, tiles_.across,
                                    tiles_.step_across, tiles_.columns)
                               .first,
                           tiles_at(box.high.x - tiles_.north_west.x, tiles_.across,
                                    tiles_.step_across, tiles_.columns)
                               .last};
        const Span rows{
            tiles_at(tiles_.north_west.y - box.high.y, tiles_.down, tiles_.step_down, tiles_.rows)
                .first,
            tiles_at(tiles_.north_west.y - box.low.y, tiles_.down, tiles_.step_down, tiles_.rows)
                .last};
        for (int row = rows.first; row <= rows.last; ++row) {
            for (int column = columns.first; column <= columns.last; ++column) {
                used_[position_of(column, row, tiles_.columns)] = true;
            }
        }
    }
    void see(Point point) { see(Box{point, point}); }

    void number() {
        tiles_.numbers.assign(used_.size(), std::nullopt);
        int next = 1;
        for (std::size_t i = 0; i < used_.size(); ++i) {
            if (used_[i]) {
                tiles_.numbers[i] = next++;
            }
        }
    }

private:
    PageTiles& tiles_;
    std::vector<bool> used_;
};

void see_all(TilesInUse& in_use, const District& district) {
    for (const Road& road : district.roads) {
        for (std::size_t i = 1; i < road.line.size(); ++i) {
            Box piece;
            piece.include(road.line[i - 1]);
            piece.include(road.line[i]);
            in_use.see(piece);
        }
    }
    for (const Parcel& parcel : district.parcels) {
        in_use.see(parcel.house);
    }
    for (const WaterSource& source : district.sources) {
        in_use.see(source.place);
    }
    for (const Station& station : district.stations) {
        in_use.see(station.place);
    }
}

PageTiles tiles_at_scale(const Box& box, int feet_per_inch, double inches_across,
                         double inches_down) {
    PageTiles tiles;
    tiles.feet_per_inch = feet_per_inch;
    tiles.across = inches_across * feet_per_inch * metres_per_foot;
    tiles.down = inches_down * feet_per_inch * metres_per_foot;
    tiles.step_across = tiles.across * (1.0 - overlap);
    tiles.step_down = tiles.down * (1.0 - overlap);
    const double east = box.high.x - box.low.x;
    const double south = box.high.y - box.low.y;
    tiles.columns = tiles_over(east, tiles.across, tiles.step_across);
    tiles.rows = tiles_over(south, tiles.down, tiles.step_down);
    const double whole_across = tiles.across + (tiles.columns - 1) * tiles.step_across;
    const double whole_down = tiles.down + (tiles.rows - 1) * tiles.step_down;
    tiles.north_west = {box.low.x - (whole_across - east) / 2.0,
                        box.high.y + (whole_down - south) / 2.0};
    return tiles;
}

}  // namespace

std::optional<int> PageTiles::number(int column, int row) const {
    if (column < 0 || column >= columns || row < 0 || row >= rows) {
        return std::nullopt;
    }
    return numbers[position_of(column, row, columns)];
}

Box PageTiles::ground(int column, int row) const {
    const Point corner{north_west.x + column * step_across, north_west.y - row * step_down};
    return {{corner.x, corner.y - down}, {corner.x + across, corner.y}};
}

void PageTiles::pages_at(Point place, std::vector<int>& pages) const {
    const Span wide = tiles_at(place.x - north_west.x, across, step_across, columns);
    const Span high = tiles_at(north_west.y - place.y, down, step_down, rows);
    for (int row = high.first; row <= high.last; ++row) {
        for (int column = wide.first; column <= wide.last; ++column) {
            if (const auto page = number(column, row)) {
                pages.push_back(*page);
            }
        }
    }
}

std::size_t PageTiles::pages() const {
    return static_cast<std::size_t>(std::ranges::count_if(
        numbers, [](const std::optional<int>& number) { return number.has_value(); }));
}

PageTiles page_tiles(const CardBook& book, double inches_across, double inches_down,
                     std::size_t most) {
    const Box box = box_of_book(book);
    PageTiles tiles;
    constexpr int finest = 500;
    constexpr int usual = 1000;
    constexpr std::size_t few = 24;
    constexpr double most_tiles = 20000.0;  // of which most would have to be empty
    for (const int feet : map_scales()) {
        if (feet < finest) {
            continue;
        }
        tiles = tiles_at_scale(box, feet, inches_across, inches_down);
        if (static_cast<double>(tiles.columns) * tiles.rows > most_tiles) {
            continue;
        }
        TilesInUse in_use(tiles);
        see_all(in_use, book.district());
        in_use.number();
        if (tiles.pages() <= (feet < usual ? std::min(few, most) : most)) {
            break;
        }
    }
    return tiles;
}

}  // namespace farwater::reports
