#include "reports/cards/draw_map.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "reports/page_shapes.h"

namespace farwater::reports {
namespace {

constexpr double name_size = 6.3;

// From the working plane into the rectangle: north up, one scale, the box in the middle.
class Placing {
public:
    Placing(const Box& box, const Rect& rect)
        : scale_(std::min(rect.width / (box.high.x - box.low.x),
                          rect.height / (box.high.y - box.low.y))),
          middle_{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0},
          centre_{rect.left + rect.width / 2.0, rect.top + rect.height / 2.0} {}
    Point operator()(Point p) const {
        return {centre_.x + (p.x - middle_.x) * scale_, centre_.y - (p.y - middle_.y) * scale_};
    }
    double points_per_metre() const { return scale_; }

private:
    double scale_;
    Point middle_, centre_;
};

Polyline on_page(const Polyline& line, const Placing& place) {
    Polyline points;
    for (const Point& point : simplified(line, 0.4 / place.points_per_metre())) {
        points.push_back(place(point));
    }
    return points;
}

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

bool inside(const Rect& rect, Point p, double margin) {
    return p.x > rect.left + margin && p.x < rect.right() - margin && p.y > rect.top + margin &&
           p.y < rect.bottom() - margin;
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
            if (inside(rect, tip, 6.0)) {
                arrow_head(canvas, tip, way[i - 1], grey);
            }
        }
        done += length;
    }
}

void draw_line(PageCanvas& canvas, const SiteMap::Line& line, const Placing& place,
               const Rect& rect) {
    const Polyline points = on_page(line.line, place);
    switch (line.kind) {
        case MapLine::side_road:
            canvas.line(points, {.width = 0.6, .grey = 0.66});
            break;
        case MapLine::road:
            canvas.line(points, {.width = 1.3, .grey = 0.62});
            break;
        case MapLine::main_road:
            canvas.line(points, {.width = 2.4, .grey = 0.62});
            break;
        case MapLine::hose:
            canvas.line(points, {.width = 0.9, .dash = 1.6});
            break;
        case MapLine::empty: {
            const Polyline way = beside(points, 2.3);
            canvas.line(way, {.width = 1.3, .grey = 0.25, .dash = 3.5});
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

// Names beside their things; one that would cover another or leave the frame is left out.
class Names {
public:
    Names(PageCanvas& canvas, const Rect& frame) : canvas_(canvas), frame_(frame) {}

    void keep_free(const Rect& rect) { taken_.push_back(rect); }

    bool place(Point middle, const std::string& name, const TextLook& look, double angle) {
        const Extent room = canvas_.extent(name, look);
        const double across =
            std::abs(std::cos(angle)) * room.width + std::abs(std::sin(angle)) * room.height;
        const double down =
            std::abs(std::sin(angle)) * room.width + std::abs(std::cos(angle)) * room.height;
        const Rect box{middle.x - across / 2.0, middle.y - down / 2.0, across, down};
        const bool in_frame = box.left > frame_.left + 1.0 && box.right() < frame_.right() - 1.0 &&
                              box.top > frame_.top + 1.0 && box.bottom() < frame_.bottom() - 1.0;
        const auto covers = [&](const Rect& other) {
            return box.left < other.right() && other.left < box.right() &&
                   box.top < other.bottom() && other.top < box.bottom();
        };
        if (!in_frame || std::ranges::any_of(taken_, covers)) {
            return false;
        }
        taken_.push_back(box);
        canvas_.label(middle, name, look, angle);
        return true;
    }

private:
    PageCanvas& canvas_;
    Rect frame_;
    std::vector<Rect> taken_;
};

// A stretch of a road with its name, as it lies on the page.
struct Stretch {
    double length = 0.0;
    Point middle;
    double angle = 0.0;
    std::string name;
};

// The longest straight stretch of a line inside the frame.
Stretch longest_stretch(const SiteMap::Line& line, const Placing& place, const Rect& rect) {
    Stretch best;
    const Polyline points = on_page(line.line, place);
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Point from = points[i - 1];
        const Point to = points[i];
        const Point middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
        const double length = std::sqrt(distance_squared(from, to));
        if (length > best.length && inside(rect, middle, 8.0)) {
            double angle = std::atan2(to.y - from.y, to.x - from.x);
            constexpr double quarter = 1.5707963267948966;
            angle += angle > quarter ? -2.0 * quarter : angle <= -quarter ? 2.0 * quarter : 0.0;
            best = {length, middle, angle, line.name};
        }
    }
    return best;
}

void draw_road_names(PageCanvas& canvas, Names& names, const SiteMap& map, const Placing& place,
                     const Rect& rect) {
    std::vector<Stretch> stretches;
    for (const SiteMap::Line& line : map.lines) {
        if (!line.name.empty() && line.kind <= MapLine::main_road) {
            Stretch stretch = longest_stretch(line, place, rect);
            if (stretch.length > 12.0) {
                stretches.push_back(std::move(stretch));
            }
        }
    }
    std::ranges::stable_sort(stretches, std::greater<>{}, &Stretch::length);
    std::vector<std::string> said;
    for (const Stretch& stretch : stretches) {
        const TextLook look{.size = name_size, .grey = 0.15};
        const bool fits = canvas.extent(stretch.name, look).width < stretch.length * 1.6 + 20.0;
        if (fits && std::ranges::find(said, stretch.name) == said.end() &&
            names.place(stretch.middle, stretch.name, look, stretch.angle)) {
            said.push_back(stretch.name);
        }
    }
}

void draw_square(PageCanvas& canvas, Point middle, double half, double grey, double edge_grey) {
    const Rect rect{middle.x - half, middle.y - half, 2.0 * half, 2.0 * half};
    canvas.fill(rect, grey);
    canvas.frame(rect, {.width = 0.7, .grey = edge_grey});
}

void letter_on(PageCanvas& canvas, Point middle, const std::string& letter, double grey) {
    const TextLook look{.size = 8.0, .bold = true, .align = Align::centre, .grey = grey};
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
std::vector<Point> places_of_marks(const SiteMap& map, const Placing& place) {
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

void draw_marks(PageCanvas& canvas, Names& names, const SiteMap& map,
                const std::vector<Point>& places, const Rect& rect) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Point at = places[i];
        if (inside(rect, at, 0.0)) {
            draw_mark(canvas, map.marks[i], at);
            const double radius = mark_radius(map.marks[i].kind);
            names.keep_free({at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius});
        }
    }
}

// Right of the mark, else left, above or below.
void draw_mark_names(PageCanvas& canvas, Names& names, const SiteMap& map,
                     const std::vector<Point>& places, const Rect& rect) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const SiteMap::Mark& mark = map.marks[i];
        const Point at = places[i];
        if (mark.name.empty() || is_lettered(mark.kind) || !inside(rect, at, 0.0)) {
            continue;
        }
        const TextLook look{.size = name_size, .bold = mark.kind == MapMark::worst_house};
        const Extent room = canvas.extent(mark.name, look);
        const double aside = mark_radius(mark.kind) + 1.0 + room.width / 2.0;
        const double above = mark_radius(mark.kind) + room.height / 2.0;
        const std::array tries{Point{at.x + aside, at.y}, Point{at.x - aside, at.y},
                               Point{at.x, at.y - above}, Point{at.x, at.y + above}};
        for (const Point& middle : tries) {
            if (names.place(middle, mark.name, look, 0.0)) {
                break;
            }
        }
    }
}

struct Step {
    double metres;
    std::string_view words;
};

// A round length of feet or miles, at most a fifth of the map's width.
Step scale_step(const Placing& place, double width) {
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
void draw_band(PageCanvas& canvas, const SiteMap& map, const Placing& place, const Rect& band) {
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
    const Placing place(map.box, rect);
    canvas.fill(whole, 1.0);
    draw_band(canvas, map, place, {whole.left, whole.top, whole.width, band_height});
    canvas.clip(rect);
    for (const SiteMap::Line& line : map.lines) {
        draw_line(canvas, line, place, rect);
    }
    Names names(canvas, rect);
    const std::vector<Point> places = places_of_marks(map, place);
    draw_marks(canvas, names, map, places, rect);
    draw_mark_names(canvas, names, map, places, rect);
    draw_road_names(canvas, names, map, place, rect);
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
