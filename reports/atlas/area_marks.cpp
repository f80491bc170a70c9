#include "reports/atlas/area_marks.h"

#include <initializer_list>

namespace farwater::reports {
namespace {

constexpr Ink violet = Ink::rgb(0x542788);
constexpr Ink light_violet = Ink::rgb(0x998ec3);
constexpr Ink orange = Ink::rgb(0xf1a340);
constexpr Ink brown_ink = Ink::rgb(0x7f3b08);
constexpr Ink blue = Ink::rgb(0x1f78b4);

Polyline shape_at(Point middle, double radius, std::initializer_list<Point> corners) {
    Polyline ring;
    for (const Point& corner : corners) {
        ring.push_back({middle.x + corner.x * radius, middle.y + corner.y * radius});
    }
    ring.push_back(ring.front());
    return ring;
}

void fill_and_edge(PageCanvas& canvas, const Polyline& ring, const Ink& fill, const Stroke& edge) {
    canvas.area(ring, fill);
    canvas.line(ring, edge);
}

void draw_cross(PageCanvas& canvas, Point at, double radius) {
    const Stroke stroke{.width = radius * 0.5, .ink = brown_ink};
    canvas.line({{at.x - radius, at.y - radius}, {at.x + radius, at.y + radius}}, stroke);
    canvas.line({{at.x - radius, at.y + radius}, {at.x + radius, at.y - radius}}, stroke);
}

void draw_struck_square(PageCanvas& canvas, Point at, double radius) {
    const Stroke stroke{.width = radius * 0.35, .ink = Ink::rgb(0xb35806)};
    fill_and_edge(canvas, shape_at(at, radius, {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}), 1.0, stroke);
    canvas.line({{at.x - radius, at.y + radius}, {at.x + radius, at.y - radius}}, stroke);
}

Polyline water_shape(SourceKind kind, Point at, double radius) {
    switch (kind) {
        case SourceKind::hydrant:
            return shape_at(
                at, radius,
                {{-0.8, 1}, {-0.8, -0.4}, {-0.4, -1}, {0.4, -1}, {0.8, -0.4}, {0.8, 1}});
        case SourceKind::draft_site:
            return shape_at(
                at, radius,
                {{0, -1.3}, {0.8, 0}, {0.9, 0.6}, {0.4, 1}, {-0.4, 1}, {-0.9, 0.6}, {-0.8, 0}});
        case SourceKind::cistern:
            return shape_at(at, radius, {{-1, -0.8}, {1, -0.8}, {1, 0.9}, {-1, 0.9}});
        case SourceKind::dry_hydrant:
            break;
    }
    return {};
}

}  // namespace

void draw_state(PageCanvas& canvas, SupplyState state, Point at, double radius) {
    const double edge = radius * 0.2;
    switch (state) {
        case SupplyState::held:
            canvas.disc(at, radius * 0.85, violet, {.width = 0.0});
            break;
        case SupplyState::late:
            fill_and_edge(canvas, shape_at(at, radius, {{0, -1.1}, {1.1, 0}, {0, 1.1}, {-1.1, 0}}),
                          light_violet, {.width = edge, .ink = violet});
            break;
        case SupplyState::short_flow:
            fill_and_edge(canvas, shape_at(at, radius, {{0, -1.1}, {1.1, 0.9}, {-1.1, 0.9}}),
                          orange, {.width = edge, .ink = brown_ink});
            break;
        case SupplyState::tank_only:
            draw_struck_square(canvas, at, radius * 0.9);
            break;
        case SupplyState::unreached:
            draw_cross(canvas, at, radius * 0.9);
            break;
        case SupplyState::unknown:
            canvas.disc(at, radius * 0.85, 0.94,
                        {.width = edge, .ink = 0.33, .dash = radius * 0.4});
            break;
        case SupplyState::no_building:
            break;
    }
}

void draw_water(PageCanvas& canvas, SourceKind kind, bool counts, Point at, double radius) {
    const Ink fill = counts ? blue : Ink(1.0);
    const Stroke edge{.width = counts ? radius * 0.16 : radius * 0.25, .ink = counts ? 1.0 : 0.45};
    const Polyline shape = water_shape(kind, at, radius);
    if (!shape.empty()) {
        fill_and_edge(canvas, shape, fill, edge);
        return;
    }
    canvas.disc(at, radius, fill, edge);
    const Stroke cross{.width = radius * 0.26, .ink = counts ? Ink(1.0) : Ink(0.45)};
    const double arm = radius * 0.55;
    canvas.line({{at.x - arm, at.y}, {at.x + arm, at.y}}, cross);
    canvas.line({{at.x, at.y - arm}, {at.x, at.y + arm}}, cross);
}

void draw_station(PageCanvas& canvas, Point at, double radius) {
    fill_and_edge(canvas,
                  shape_at(at, radius, {{-1, 0.8}, {-1, -0.3}, {0, -1.2}, {1, -0.3}, {1, 0.8}}),
                  0.0, {.width = radius * 0.14, .ink = 1.0});
}

Rect dump_site_plate(const PageCanvas& canvas, const std::string& number, Point at, double size) {
    const Extent room = number.empty() ? Extent{size * 0.3, size * 0.5}
                                       : canvas.extent(number, {.size = size, .bold = true});
    const double across = room.width + size * 0.5;
    const double down = room.height * 0.92;
    return {at.x - across / 2.0, at.y - down / 2.0, across, down};
}

void draw_dump_site(PageCanvas& canvas, const std::string& number, Point at, double size) {
    const Rect plate = dump_site_plate(canvas, number, at, size);
    canvas.fill(plate, 0.0);
    canvas.frame(plate, {.width = size * 0.09, .ink = 1.0});
    if (!number.empty()) {
        const TextLook look{.size = size, .bold = true, .align = Align::centre, .ink = 1.0};
        canvas.text({at.x, at.y - canvas.extent(number, look).height / 2.0}, number, look);
    }
}

Stroke road_stroke(RoadClass kind, bool tanker_may_use, double size) {
    if (!tanker_may_use) {
        return {.width = 0.7 * size, .ink = 0.55, .dash = 2.5 * size};
    }
    switch (kind) {
        case RoadClass::state:
            return {.width = 3.2 * size, .ink = Ink::rgb(0x8a6d4b)};
        case RoadClass::paved:
            return {.width = 2.3 * size, .ink = Ink::rgb(0x8c8577)};
        case RoadClass::paved_lane:
            return {.width = 1.6 * size, .ink = Ink::rgb(0x8c8577)};
        case RoadClass::gravel:
            return {.width = 1.6 * size, .ink = Ink::rgb(0xb8a888)};
        case RoadClass::narrow:
            return {.width = 1.0 * size, .ink = 0.6};
        case RoadClass::drive:
            break;
    }
    return {.width = 0.5 * size, .ink = 0.66};
}

}  // namespace farwater::reports
