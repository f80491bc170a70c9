#include "reports/cards/map_marks.h"

#include <cmath>

namespace farwater::reports {
namespace {

void draw_square(PageCanvas& canvas, Point middle, double half, double grey, double edge_grey) {
    const Rect rect{middle.x - half, middle.y - half, 2.0 * half, 2.0 * half};
    canvas.fill(rect, grey);
    canvas.frame(rect, {.width = 0.7, .ink = edge_grey});
}

void letter_on(PageCanvas& canvas, Point middle, const std::string& letter, double grey) {
    const TextLook look{.size = 8.0, .bold = true, .align = Align::centre, .ink = grey};
    const Extent room = canvas.extent(letter, look);
    canvas.text({middle.x, middle.y - room.height / 2.0}, letter, look);
}

void draw_mark(PageCanvas& canvas, const SiteMap::Mark& mark, Point at) {
    switch (mark.kind) {
        case MapMark::house:
            draw_square(canvas, at, 1.5, 1.0, 0.0);
            break;
        case MapMark::worst_house:
            draw_square(canvas, at, 2.3, 0.0, 1.0);
            break;
        case MapMark::station:
            canvas.area({{at.x, at.y - 6.0}, {at.x + 5.0, at.y + 3.0}, {at.x - 5.0, at.y + 3.0}},
                        0.35);
            break;
        case MapMark::source:
            canvas.disc(at, 3.0, 1.0, {.width = 1.2});
            break;
        case MapMark::fill_site:
            canvas.disc(at, 6.5, 1.0, {.width = 1.6});
            letter_on(canvas, at, mark.name, 0.0);
            break;
        case MapMark::dump_site:
            draw_square(canvas, at, 6.0, 0.0, 1.0);
            letter_on(canvas, at, "D", 1.0);
            break;
    }
}

double mark_radius(MapMark kind) {
    switch (kind) {
        case MapMark::fill_site:
        case MapMark::dump_site:
            return 7.5;
        case MapMark::station:
            return 5.5;
        case MapMark::source:
            return 4.0;
        case MapMark::worst_house:
            return 3.0;
        case MapMark::house:
            break;
    }
    return 2.0;
}

bool is_lettered(MapMark kind) { return kind == MapMark::fill_site || kind == MapMark::dump_site; }

// Where each mark is drawn: a fill site that would lie on the dump site or on another one steps
// aside.
std::vector<Point> places_of_marks(const SiteMap& map, const MapPlacing& place) {
    constexpr double apart = 14.5;
    std::vector<Point> places;
    std::vector<Point> lettered;
    for (const SiteMap::Mark& mark : map.marks) {
        places.push_back(place(mark.place));
        if (mark.kind == MapMark::dump_site) {
            lettered.push_back(places.back());
        }
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (map.marks[i].kind != MapMark::fill_site) {
            continue;
        }
        for (const Point& other : lettered) {
            const double away = std::sqrt(distance_squared(other, places[i]));
            if (away < apart) {
                const Point along = away < 1e-6 ? Point{1.0, 0.0}
                                                : Point{(places[i].x - other.x) / away,
                                                        (places[i].y - other.y) / away};
                places[i] = {other.x + along.x * apart, other.y + along.y * apart};
            }
        }
        lettered.push_back(places[i]);
    }
    return places;
}

void draw_all(PageCanvas& canvas, MapNames& names, const SiteMap& map,
              const std::vector<Point>& places, const Rect& rect) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Point at = places[i];
        if (inside_frame(rect, at, 0.0)) {
            draw_mark(canvas, map.marks[i], at);
            const double radius = mark_radius(map.marks[i].kind);
            names.keep_free({at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius});
        }
    }
}

void draw_mark_names(MapNames& names, const SiteMap& map, const std::vector<Point>& places,
                     const Rect& rect) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const SiteMap::Mark& mark = map.marks[i];
        const Point at = places[i];
        if (mark.name.empty() || is_lettered(mark.kind) || !inside_frame(rect, at, 0.0)) {
            continue;
        }
        const TextLook look{.size = map_name_size, .bold = mark.kind == MapMark::worst_house};
        names.place_beside(at, mark_radius(mark.kind), mark.name, look);
    }
}

}  // namespace

void draw_marks(PageCanvas& canvas, MapNames& names, const SiteMap& map, const MapPlacing& place,
                const Rect& rect) {
    const std::vector<Point> places = places_of_marks(map, place);
    draw_all(canvas, names, map, places, rect);
    draw_mark_names(names, map, places, rect);
}

}  // namespace farwater::reports
