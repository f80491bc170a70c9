#include "reports/print/map_names.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <unordered_map>
#include <utility>

namespace farwater::reports {
namespace {

// A stretch of a road with its name, as it lies on the page.
struct NamedStretch {
    double length = 0.0;
    Point middle;
    double angle = 0.0;
    std::string name;
};

// How far from `first` on the line stays by the straight way to its end there.
std::size_t end_of_stretch(const Polyline& points, std::size_t first) {
    constexpr double most_aside = 2.0;
    const auto strays = [&](std::size_t last) {
        const Point from = points[first];
        const Point to = points[last];
        const double length = std::sqrt(distance_squared(from, to));
        for (std::size_t i = first + 1; i < last; ++i) {
            const double area =
                (to.x - from.x) * (points[i].y - from.y) - (to.y - from.y) * (points[i].x - from.x);
            if (std::abs(area) > most_aside * length) {
                return true;
            }
        }
        return false;
    };
    std::size_t last = first + 1;
    while (last + 1 < points.size() && !strays(last + 1)) {
        ++last;
    }
    return last;
}

// The longest stretch of a line inside the frame that is straight to the eye.
NamedStretch longest_stretch(const NamedLine& line, const MapPlacing& place, const Rect& rect) {
    NamedStretch best;
    const Polyline points = on_page(line.line, place);
    for (std::size_t first = 0; first + 1 < points.size(); ++first) {
        const Point from = points[first];
        const Point to = points[end_of_stretch(points, first)];
        const Point middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
        const double length = std::sqrt(distance_squared(from, to));
        if (length > best.length && inside_frame(rect, middle, 8.0)) {
            double angle = std::atan2(to.y - from.y, to.x - from.x);
            constexpr double quarter = 1.5707963267948966;
            angle += angle > quarter ? -2.0 * quarter : angle <= -quarter ? 2.0 * quarter : 0.0;
            best = {length, middle, angle, line.name};
        }
    }
    return best;
}

// On the stretch; else, where names may stand aside, on either side of it and towards its ends.
bool place_along(MapNames& names, const NamedStretch& stretch, const TextLook& look, double aside) {
    const Point along{std::cos(stretch.angle), std::sin(stretch.angle)};
    const auto at = [&](double forth, double right) {
        return Point{stretch.middle.x + along.x * forth - along.y * right,
                     stretch.middle.y + along.y * forth + along.x * right};
    };
    if (aside <= 0.0) {
        return names.place(stretch.middle, stretch.name, look, stretch.angle);
    }
    for (const double forth : {0.0, 0.25, -0.25, 0.4, -0.4}) {
        for (const double right : {0.0, -1.0, 1.0}) {
            if (names.place(at(forth * stretch.length, right * aside), stretch.name, look,
                            stretch.angle)) {
                return true;
            }
        }
    }
    return false;
}

}  // namespace

bool MapNames::is_free(const Rect& rect) const {
    const bool in_frame = rect.left > frame_.left + 1.0 && rect.right() < frame_.right() - 1.0 &&
                          rect.top > frame_.top + 1.0 && rect.bottom() < frame_.bottom() - 1.0;
    return in_frame && std::ranges::none_of(taken_, [&](const Rect& other) {
               return rect.left < other.right() && other.left < rect.right() &&
                      rect.top < other.bottom() && other.top < rect.bottom();
           });
}

bool MapNames::place(Point middle, const std::string& name, const TextLook& look, double angle) {
    const Extent room = canvas_.extent(name, look);
    const double across =
        std::abs(std::cos(angle)) * room.width + std::abs(std::sin(angle)) * room.height;
    const double down =
        std::abs(std::sin(angle)) * room.width + std::abs(std::cos(angle)) * room.height;
    const Rect box{middle.x - across / 2.0, middle.y - down / 2.0, across, down};
    if (!is_free(box)) {
        return false;
    }
    taken_.push_back(box);
    if (ground_ == Ground::plate) {
        canvas_.label(middle, name, look, angle);
    } else {
        canvas_.edged(middle, name, look, angle);
    }
    return true;
}

bool MapNames::place_beside(Point mark, double radius, const std::string& name,
                            const TextLook& look) {
    const Extent room = canvas_.extent(name, look);
    const double aside = radius + 1.0 + room.width / 2.0;
    const double above = radius + room.height / 2.0;
    const std::array tries{Point{mark.x + aside, mark.y}, Point{mark.x - aside, mark.y},
                           Point{mark.x, mark.y - above}, Point{mark.x, mark.y + above}};
    return std::ranges::any_of(tries,
                               [&](const Point& middle) { return place(middle, name, look, 0.0); });
}

void draw_road_names(PageCanvas& canvas, MapNames& names, const std::vector<NamedLine>& lines,
                     const MapPlacing& place, const Rect& rect, const RoadNameLook& look) {
    std::vector<NamedStretch> stretches;
    for (const NamedLine& line : lines) {
        NamedStretch stretch = longest_stretch(line, place, rect);
        if (stretch.length > 12.0) {
            stretches.push_back(std::move(stretch));
        }
    }
    std::ranges::stable_sort(stretches, std::greater<>{}, &NamedStretch::length);
    std::unordered_map<std::string, std::vector<Point>> said;
    const TextLook letters{.size = look.size, .ink = 0.15};
    for (const NamedStretch& stretch : stretches) {
        std::vector<Point>& there = said[stretch.name];
        const bool again = std::ranges::any_of(there, [&](const Point& point) {
            return distance_squared(point, stretch.middle) < look.again_after * look.again_after;
        });
        const bool fits =
            !again && canvas.extent(stretch.name, letters).width < stretch.length * 1.6 + 20.0;
        if (fits && place_along(names, stretch, letters, look.aside)) {
            there.push_back(stretch.middle);
        }
    }
}

}  // namespace farwater::reports
