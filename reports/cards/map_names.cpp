#include "reports/cards/map_names.h"

#include <algorithm>
#include <cmath>
#include <functional>
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

// The longest straight stretch of a line inside the frame.
NamedStretch longest_stretch(const SiteMap::Line& line, const MapPlacing& place, const Rect& rect) {
    NamedStretch best;
    const Polyline points = on_page(line.line, place);
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Point from = points[i - 1];
        const Point to = points[i];
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

}  // namespace

bool MapNames::place(Point middle, const std::string& name, const TextLook& look, double angle) {
    const Extent room = canvas_.extent(name, look);
    const double across =
        std::abs(std::cos(angle)) * room.width + std::abs(std::sin(angle)) * room.height;
    const double down =
        std::abs(std::sin(angle)) * room.width + std::abs(std::cos(angle)) * room.height;
    const Rect box{middle.x - across / 2.0, middle.y - down / 2.0, across, down};
    const bool in_frame = box.left > frame_.left + 1.0 && box.right() < frame_.right() - 1.0 &&
                          box.top > frame_.top + 1.0 && box.bottom() < frame_.bottom() - 1.0;
    const auto covers = [&](const Rect& other) {
        return box.left < other.right() && other.left < box.right() && box.top < other.bottom() &&
               other.top < box.bottom();
    };
    if (!in_frame || std::ranges::any_of(taken_, covers)) {
        return false;
    }
    taken_.push_back(box);
    canvas_.label(middle, name, look, angle);
    return true;
}

void draw_road_names(PageCanvas& canvas, MapNames& names, const SiteMap& map,
                     const MapPlacing& place, const Rect& rect) {
    std::vector<NamedStretch> stretches;
    for (const SiteMap::Line& line : map.lines) {
        if (!line.name.empty() && line.kind <= MapLine::main_road) {
            NamedStretch stretch = longest_stretch(line, place, rect);
            if (stretch.length > 12.0) {
                stretches.push_back(std::move(stretch));
            }
        }
    }
    std::ranges::stable_sort(stretches, std::greater<>{}, &NamedStretch::length);
    std::vector<std::string> said;
    for (const NamedStretch& stretch : stretches) {
        const TextLook look{.size = map_name_size, .ink = 0.15};
        const bool fits = canvas.extent(stretch.name, look).width < stretch.length * 1.6 + 20.0;
        if (fits && std::ranges::find(said, stretch.name) == said.end() &&
            names.place(stretch.middle, stretch.name, look, stretch.angle)) {
            said.push_back(stretch.name);
        }
    }
}

}  // namespace farwater::reports
