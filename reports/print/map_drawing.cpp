#include "reports/print/map_drawing.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/page/page_shapes.h"

namespace farwater::reports {
namespace {

void add_stroke(Drawing& map, Polyline points) {
    Drawing::Path path;
    path.points = std::move(points);
    path.edge = Stroke{.width = 1.0, .ink = map_ink};
    map.things.emplace_back(std::move(path));
}

bool comes_near(const Polyline& line, const Box& box) {
    Box of_line;
    for (const Point& point : line) {
        of_line.include(point);
    }
    return of_line.low.x <= box.high.x && box.low.x <= of_line.high.x &&
           of_line.low.y <= box.high.y && box.low.y <= of_line.high.y;
}

Box room_of(Point at_page, std::string_view text) {
    constexpr double letter = 6.2;
    Box box;
    box.low = {at_page.x + 6.0, at_page.y - 13.0};
    box.high = {at_page.x + 6.0 + letter * static_cast<double>(text.size()), at_page.y - 3.0};
    return box;
}

}  // namespace

Box widened(Box box, double least_across) {
    if (box.empty()) {
        box.include({0.0, 0.0});
    }
    const double wider = std::max(0.0, least_across - (box.high.x - box.low.x)) / 2.0;
    const double taller = std::max(0.0, least_across / 2.0 - (box.high.y - box.low.y)) / 2.0;
    return {{box.low.x - wider, box.low.y - taller}, {box.high.x + wider, box.high.y + taller}};
}

bool is_inside(Point p, const Box& box) {
    return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

Drawing::Path outline_of(Point middle, std::initializer_list<Point> corners) {
    Drawing::Path path;
    for (const Point& corner : corners) {
        path.points.push_back({middle.x + corner.x, middle.y + corner.y});
    }
    path.closed = true;
    return path;
}

void add_road(Drawing& map, const Polyline& line, const PageFit& fit, const Box& box) {
    if (!comes_near(line, box)) {
        return;
    }
    Drawing::Path path;
    for (const Point& point : simplified(line, 0.3 / fit.units_per_metre())) {
        path.points.push_back(fit(point));
    }
    path.edge = Stroke{.width = 1.3, .ink = Ink::rgb(0xb3ac9d)};
    map.things.emplace_back(std::move(path));
}

void add_roads(Drawing& map, const District& district, const PageFit& fit, const Box& box) {
    for (const Road& road : district.roads) {
        add_road(map, road.line, fit, box);
    }
}

void mark_source(Drawing& map, bool filled, Point at) {
    if (filled) {
        map.things.emplace_back(
            Drawing::Disc{at, 5.0, water_ink, Stroke{.width = 0.8, .ink = 1.0}});
    } else {
        map.things.emplace_back(
            Drawing::Disc{at, 4.4, Ink(1.0), Stroke{.width = 1.6, .ink = water_ink}});
    }
}

void mark_station(Drawing& map, Point at) {
    auto house = outline_of(at, {{-6, 5}, {-6, -2}, {0, -7}, {6, -2}, {6, 5}});
    house.fill = map_ink;
    house.edge = Stroke{.width = 0.8, .ink = 1.0};
    map.things.emplace_back(std::move(house));
}

void MapLabels::add_to(Drawing& map, Point at_page, const std::string& text) {
    constexpr std::size_t most = 500;
    const Box box = room_of(at_page, text);
    const auto covers = [&](const Box& other) {
        return box.low.x < other.high.x && other.low.x < box.high.x && box.low.y < other.high.y &&
               other.low.y < box.high.y;
    };
    if (taken_.size() >= most || std::ranges::any_of(taken_, covers)) {
        return;
    }
    taken_.push_back(box);
    map.things.emplace_back(Drawing::Label{
        {at_page.x + 6.0, at_page.y - 4.0}, text, {.size = 10.0, .ink = Ink::rgb(0x0b3c5d)}, true});
}

void MapKey::title(const std::string& text) {
    y_ += 30.0;
    map_.things.emplace_back(
        Drawing::Label{{left_, y_}, text, {.size = 13.0, .bold = true, .ink = map_ink}, false});
}

Point MapKey::row(const std::string& text) {
    y_ += 22.0;
    map_.things.emplace_back(
        Drawing::Label{{left_ + 24.0, y_}, text, {.size = 13.0, .ink = map_ink}, false});
    return {left_ + 8.0, y_ - 4.0};
}

void add_miles_bar(Drawing& map, const PageFit& fit, Point top_left) {
    double length = 0.05;
    for (const double step : {0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
        length = step * metres_per_mile * fit.units_per_metre() <= 170.0 ? step : length;
    }
    const auto [left, top] = top_left;
    const double end = left + length * metres_per_mile * fit.units_per_metre();
    const TextLook look{.size = 13.0, .ink = map_ink};
    add_stroke(map, {{left, top + 54}, {left, top + 60}, {end, top + 60}, {end, top + 54}});
    map.things.emplace_back(
        Drawing::Label{{left, top + 77}, fmt::format("{:.3g} mi", length), look, false});
    const double north = left + 12.0;
    add_stroke(map, {{north, top + 24}, {north, top}});
    add_stroke(map, {{north - 5, top + 9}, {north, top}, {north + 5, top + 9}});
    TextLook middle = look;
    middle.align = Align::centre;
    map.things.emplace_back(Drawing::Label{{north, top + 38}, "N", middle, false});
}

}  // namespace farwater::reports
