// What a small map of a card shows, in metres of the working plane. A value: draw_map.h draws it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

inline constexpr PageSize map_size{.width = 273.0, .height = 196.0};  // in points, on a card

enum class MapLine : std::uint8_t { side_road, road, main_road, hose, empty, loaded };
enum class MapMark : std::uint8_t { house, worst_house, station, source, fill_site, dump_site };

struct SiteMap {
    struct Line {
        MapLine kind;
        Polyline line;
        std::string name;
    };
    struct Mark {
        MapMark kind;
        Point place;
        std::string name;
    };
    std::string title;
    Box box;  // what must be seen; as much more as the paper's shape leaves room for
    std::vector<Line> lines;  // later ones over earlier ones
    std::vector<Mark> marks;
};

// The box of a map's paper: round the same middle, never less than `least` metres across, with the
// paper's proportions.
Box box_on_paper(const Box& box, double least);

}  // namespace farwater::reports
