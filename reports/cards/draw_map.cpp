#include "reports/cards/draw_map.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "reports/cards/map_marks.h"
#include "reports/print/map_names.h"
#include "reports/print/map_placing.h"

namespace farwater::reports {
namespace {

// Beside the line, on the right hand of who drives along it: both ways of one road stay apart.
Polyline beside(const Polyline& line, double offset) {
    Polyline moved;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Point& from = line[i == 0 ? 0 : i - 1];
        const Point& to = line[std::min(i + 1, line.size() - 1)];
        const double length = std::hypot(to.x - from.x, to.y - from.y);
        if (length > 1e-9) {
            moved.push_back({line[i].x - (to.y - from.y) / length * offset,
                             line[i].y + (to.x - from.x) / length * offset});
        }
    }
    return moved;
}

void arrow_head(PageCanvas& canvas, Point tip, Point from, double grey) {
    constexpr double length = 6.0;
    constexpr double half_width = 3.0;
    const double way = std::hypot(tip.x - from.x, tip.y - from.y);
    const Point along{(tip.x - from.x) / way, (tip.y - from.y) / way};
    const Point tail{tip.x - along.x * length, tip.y - along.y * length};
    canvas.area({tip,
                 {tail.x - along.y * half_width, tail.y + along.x * half_width},
                 {tail.x + along.y * half_width, tail.y - along.x * half_width}},
                grey);
}

// Every so far along the way, and in its middle where it is short.
void arrow_heads(PageCanvas& canvas, const Polyline& way, const Rect& rect, double grey) {
    constexpr double apart = 60.0;
    double whole = 0.0;
    for (std::size_t i = 1; i < way.size(); ++i) {
        whole += std::sqrt(distance_squared(way[i - 1], way[i]));
    }
    double next = std::min(apart / 2.0, whole / 2.0);
    double done = 0.0;
    for (std::size_t i = 1; i < way.size(); ++i) {
        const double length = std::sqrt(distance_squared(way[i - 1], way[i]));
        for (; length > 1e-6 && next <= done + length; next += apart) {
            const double share = (next - done) / length;
            const Point tip{way[i - 1].x + (way[i].x - way[i - 1].x) * share,
                            way[i - 1].y + (way[i].y - way[i - 1].y) * share};
            if (inside_frame(rect, tip, 6.0)) {
                arrow_head(canvas, tip, way[i - 1], grey);
            }
        }
        done += length;
    }
}

void draw_line(PageCanvas& canvas, const SiteMap::Line& line, const MapPlacing& place,
               const Rect& rect) {
    const Polyline points = on_page(line.line, place);
    switch (line.kind) {
        case MapLine::side_road:
            canvas.line(points, {.width = 0.6, .ink = 0.66});
            break;
        case MapLine::road:
            canvas.line(points, {.width = 1.3, .ink = 0.62});
            break;
        case MapLine::main_road:
            canvas.line(points, {.width = 2.4, .ink = 0.62});
            break;
        case MapLine::hose:
            canvas.line(points, {.width = 0.9, .dash = 1.6});
            break;
        case MapLine::empty: {
            const Polyline way = beside(points, 2.3);
            canvas.line(way, {.width = 1.3, .ink = 0.25, .dash = 3.5});
            arrow_heads(canvas, way, rect, 0.25);
            break;
        }
        case MapLine::loaded: {
            const Polyline way = beside(points, 2.3);
            canvas.line(way, {.width = 2.0});
            arrow_heads(canvas, way, rect, 0.0);
            break;
        }
    }
}

std::vector<NamedLine> named_roads(const SiteMap& map) {
    std::vector<NamedLine> roads;
    for (const SiteMap::Line& line : map.lines) {
        if (!line.name.empty() && line.kind <= MapLine::main_road) {
            roads.push_back({line.line, line.name});
        }
    }
    return roads;
}

struct Step {
    double metres;
    std::string_view words;
};

// A round length of feet or miles, at most a fifth of the map's width.
Step scale_step(const MapPlacing& place, double width) {
    constexpr std::array steps{
        Step{50 * metres_per_foot, "50 ft"},      Step{100 * metres_per_foot, "100 ft"},
        Step{200 * metres_per_foot, "200 ft"},    Step{500 * metres_per_foot, "500 ft"},
        Step{1000 * metres_per_foot, "1,000 ft"}, Step{0.5 * metres_per_mile, "1/2 mile"},
        Step{metres_per_mile, "1 mile"},          Step{2 * metres_per_mile, "2 miles"},
        Step{5 * metres_per_mile, "5 miles"},     Step{10 * metres_per_mile, "10 miles"},
        Step{20 * metres_per_mile, "20 miles"}};
    Step step = steps.front();
    for (const Step& longer : steps) {
        step = longer.metres * place.points_per_metre() <= width / 5.0 ? longer : step;
    }
    return step;
}

constexpr double band_height = 12.0;

// Title, scale bar and north arrow above the map, where they cover nothing of it.
void draw_band(PageCanvas& canvas, const SiteMap& map, const MapPlacing& place, const Rect& band) {
    const TextLook look{.size = 6.5, .bold = true};
    const double top = band.top + (band.height - canvas.extent("N", look).height) / 2.0;
    canvas.text({band.left + 3.0, top}, map.title, look);
    const double north = band.right() - 7.0;
    canvas.area({{north, band.top + 1.5},
                 {north + 3.2, band.bottom() - 2.0},
                 {north, band.bottom() - 4.0},
                 {north - 3.2, band.bottom() - 2.0}},
                0.0);
    canvas.text({north - 5.0, top}, "N", {.size = look.size, .bold = true, .align = Align::right});
    const Step step = scale_step(place, band.width);
    const double length = step.metres * place.points_per_metre();
    const double words_right = north - 16.0;
    const Extent room = canvas.text({words_right, top}, step.words,
                                    {.size = look.size, .bold = true, .align = Align::right});
    const double right = words_right - room.width - 3.0;
    const double y = band.top + band.height / 2.0 + 1.5;
    canvas.line({{right - length, y - 3.0}, {right - length, y}, {right, y}, {right, y - 3.0}},
                {.width = 1.2});
    canvas.line({{band.left, band.bottom()}, {band.right(), band.bottom()}}, {.width = 0.5});
}

}  // namespace

Box box_on_paper(const Box& box, double least) {
    constexpr double margin = 1.16;
    const Point middle{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0};
    const double across =
        std::max({(box.high.x - box.low.x) * margin, least,
                  (box.high.y - box.low.y) * margin * map_size.width / map_size.height});
    const double down = across * map_size.height / map_size.width;
    return {.low = {middle.x - across / 2.0, middle.y - down / 2.0},
            .high = {middle.x + across / 2.0, middle.y + down / 2.0}};
}

void draw_map(PageCanvas& canvas, const SiteMap& map, const Rect& whole) {
    const Rect rect{whole.left, whole.top + band_height, whole.width, whole.height - band_height};
    const MapPlacing place(map.box, rect);
    canvas.fill(whole, 1.0);
    draw_band(canvas, map, place, {whole.left, whole.top, whole.width, band_height});
    canvas.clip(rect);
    for (const SiteMap::Line& line : map.lines) {
        draw_line(canvas, line, place, rect);
    }
    MapNames names(canvas, rect);
    draw_marks(canvas, names, map, place, rect);
    draw_road_names(canvas, names, named_roads(map), place, rect);
    canvas.unclip();
    canvas.frame(whole, {.width = 0.8});
}

std::string map_picture(const SiteMap& map) {
    constexpr double dots = 2.0;
    std::string picture;
    PageCanvas canvas = PageCanvas::picture(
        map_size, dots, [&picture](std::string_view bytes) { picture += bytes; });
    constexpr double edge = 0.5;
    draw_map(canvas, map, {edge, edge, map_size.width - 2.0 * edge, map_size.height - 2.0 * edge});
    canvas.finish();
    return picture;
}

}  // namespace farwater::reports
