#include "sample_region/generate/shapes.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace farwater::sample {

double signed_area(const Polyline& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point origin = ring.front();
        twice += cross(ring[i] - origin, ring[(i + 1) % ring.size()] - origin);
    }
    return twice / 2;
}

double area(const Polygons& polygons) {
    double sum = 0;
    for (const Polygon& polygon : polygons) {
        for (const Polyline& ring : polygon.rings) {
            sum += signed_area(ring);
        }
    }
    return sum;
}

bool contains(const Polyline& ring, Point p) {
    bool inside = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) {
            inside = !inside;
        }
    }
    return inside;
}

bool contains(const Polygons& polygons, Point p) {
    int rings = 0;
    for (const Polygon& polygon : polygons) {
        for (const Polyline& ring : polygon.rings) {
            rings += contains(ring, p) ? 1 : 0;
        }
    }
    return rings % 2 == 1;
}

Point middle_of(const Polyline& ring) {
    Point sum;
    for (const Point p : ring) {
        sum = sum + p;
    }
    return ring.empty() ? sum : sum * (1 / static_cast<double>(ring.size()));
}

double metres_to_segment(Point p, Point a, Point b) {
    const Point along = b - a;
    const double squared = dot(along, along);
    const double share = squared > 0 ? std::clamp(dot(p - a, along) / squared, 0.0, 1.0) : 0.0;
    return metres_between(p, a + along * share);
}

double metres_to_line(Point p, const Polyline& line) {
    double best = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < line.size(); ++i) {
        best = std::min(best, metres_to_segment(p, line[i - 1], line[i]));
    }
    return line.size() == 1 ? metres_between(p, line.front()) : best;
}

std::optional<double> crossing(Point a, Point b, Point c, Point d) {
    const Point ab = b - a;
    const Point cd = d - c;
    const double turn = cross(ab, cd);
    if (turn == 0) {
        return std::nullopt;
    }
    const double on_ab = cross(c - a, cd) / turn;
    const double on_cd = cross(c - a, ab) / turn;
    const bool both = on_ab >= 0 && on_ab <= 1 && on_cd >= 0 && on_cd <= 1;
    return both ? std::optional(on_ab) : std::nullopt;
}

double metres_along(const Polyline& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        sum += metres_between(line[i - 1], line[i]);
    }
    return sum;
}

Station station_at(const Polyline& line, double metres) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double length = metres_between(line[i - 1], line[i]);
        if (metres <= length || i + 1 == line.size()) {
            const Point direction = unit(line[i] - line[i - 1]);
            return {line[i - 1] + direction * std::clamp(metres, 0.0, length), direction};
        }
        metres -= length;
    }
    return {line.front(), {1, 0}};
}

Polyline piece(const Polyline& line, double from, double to) {
    Polyline result{rounded(station_at(line, from).place)};
    double reached = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        reached += metres_between(line[i - 1], line[i]);
        if (reached > from + 0.02 && reached < to - 0.02) {
            result.push_back(line[i]);
        }
    }
    result.push_back(rounded(station_at(line, to).place));
    return result;
}

Polyline with_cut_corners(const Polyline& line) {
    if (line.size() < 3) {
        return line;
    }
    Polyline result{line.front()};
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
        result.push_back(line[i] + (line[i - 1] - line[i]) * 0.25);
        result.push_back(line[i] + (line[i + 1] - line[i]) * 0.25);
    }
    result.push_back(line.back());
    return result;
}

Polyline simplified(const Polyline& line, double tolerance) {
    if (line.size() < 3) {
        return line;
    }
    std::vector<bool> kept(line.size(), false);
    kept.front() = kept.back() = true;
    std::vector<std::pair<std::size_t, std::size_t>> spans{{0, line.size() - 1}};
    while (!spans.empty()) {
        const auto [first, last] = spans.back();
        spans.pop_back();
        double worst = tolerance;
        std::size_t at = first;
        for (std::size_t i = first + 1; i < last; ++i) {
            const double off = metres_to_segment(line[i], line[first], line[last]);
            if (off > worst) {
                worst = off;
                at = i;
            }
        }
        if (at != first) {
            kept[at] = true;
            spans.emplace_back(first, at);
            spans.emplace_back(at, last);
        }
    }
    Polyline result;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (kept[i]) {
            result.push_back(line[i]);
        }
    }
    return result;
}

Point Outline::middle() const { return (corners[0] + corners[1] + corners[2] + corners[3]) * 0.25; }

Box Outline::box() const {
    Box box;
    for (const Point corner : corners) {
        box.include(corner);
    }
    return box;
}

double Outline::inside_by(Point p) const {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Point side = unit(corners[(i + 1) % 4] - corners[i]);
        least = std::min(least, cross(side, p - corners[i]));
    }
    return least;
}

}  // namespace farwater::sample
