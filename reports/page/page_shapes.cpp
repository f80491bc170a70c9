#include "reports/page/page_shapes.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "reports/page/packed_bytes.h"

namespace farwater::reports {
namespace {

// Of `p` from the line between a and b; from a where both are one point.
double distance_squared_to(Point p, Point a, Point b) {
    const double along = distance_squared(a, b);
    if (along == 0.0) {
        return distance_squared(p, a);
    }
    const double t = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / along;
    const double inside = std::clamp(t, 0.0, 1.0);
    return distance_squared(p, {a.x + inside * (b.x - a.x), a.y + inside * (b.y - a.y)});
}

// By the even-odd rule.
bool holds(const Polyline& ring, Point p) {
    bool inside = false;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const Point a = ring[i - 1];
        const Point b = ring[i];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) {
            inside = !inside;
        }
    }
    return inside;
}

// By the middle of its first side: a vertex may touch another ring.
bool is_hole(const Polyline& ring, std::span<const Polyline> rings) {
    if (ring.size() < 2) {
        return false;
    }
    const Point middle{(ring[0].x + ring[1].x) / 2.0, (ring[0].y + ring[1].y) / 2.0};
    bool hole = false;
    for (const Polyline& other : rings) {
        hole ^= &other != &ring && holds(other, middle);
    }
    return hole;
}

}  // namespace

PageGrid PageGrid::at(const Box& extent) {
    if (extent.empty()) {
        return {};
    }
    return {
        {std::floor(extent.low.x / step_m) * step_m, std::floor(extent.low.y / step_m) * step_m}};
}

Polyline simplified(const Polyline& line, double tolerance_m) {
    if (line.size() < 3) {
        return line;
    }
    std::vector<bool> stays(line.size(), false);
    stays.front() = stays.back() = true;
    std::vector<std::pair<std::size_t, std::size_t>> open{{0, line.size() - 1}};
    while (!open.empty()) {
        const auto [first, last] = open.back();
        open.pop_back();
        std::size_t farthest = first;
        double most = tolerance_m * tolerance_m;
        for (std::size_t i = first + 1; i < last; ++i) {
            const double away = distance_squared_to(line[i], line[first], line[last]);
            if (away > most) {
                most = away;
                farthest = i;
            }
        }
        if (farthest != first) {
            stays[farthest] = true;
            open.emplace_back(first, farthest);
            open.emplace_back(farthest, last);
        }
    }
    Polyline kept;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (stays[i]) {
            kept.push_back(line[i]);
        }
    }
    return kept;
}

std::vector<PackedShapes::Spot> PackedShapes::spots_of(const Polyline& line) const {
    std::vector<Spot> spots;
    for (const Point p : line) {
        const Spot spot{std::llround((p.x - grid_.origin.x) / PageGrid::step_m),
                        std::llround((p.y - grid_.origin.y) / PageGrid::step_m)};
        if (spots.empty() || spots.back() != spot) {
            spots.push_back(spot);
        }
    }
    return spots;
}

void PackedShapes::append(std::span<const Spot> part) {
    append_count(bytes_, part.size());
    for (const Spot spot : part) {
        append_signed(bytes_, spot.east - last_.east);
        append_signed(bytes_, spot.north - last_.north);
        last_ = spot;
    }
}

// Without the closing vertex, counter-clockwise or as a hole; empty where it shrinks to less than a
// triangle.
std::vector<PackedShapes::Spot> PackedShapes::ring_of(const Polyline& ring, bool as_hole) const {
    std::vector<Spot> spots = spots_of(simplified(ring, PageGrid::tolerance_m));
    if (spots.size() > 1 && spots.front() == spots.back()) {
        spots.pop_back();
    }
    if (spots.size() < 3) {
        return {};
    }
    std::int64_t twice_area = 0;
    Spot from = spots.back();
    for (const Spot to : spots) {
        twice_area += from.east * to.north - to.east * from.north;
        from = to;
    }
    if (as_hole ? twice_area > 0 : twice_area < 0) {
        std::ranges::reverse(spots);
    }
    return spots;
}

void PackedShapes::add_areas(std::span<const Polyline> rings) {
    std::vector<std::vector<Spot>> parts;
    for (const Polyline& ring : rings) {
        std::vector<Spot> part = ring_of(ring, rings.size() > 1 && is_hole(ring, rings));
        if (!part.empty()) {
            parts.push_back(std::move(part));
        }
    }
    append_count(bytes_, parts.size());
    for (const std::vector<Spot>& part : parts) {
        append(part);
    }
    ++rows_;
}

void PackedShapes::add_line(const Polyline& line) {
    const std::vector<Spot> spots = spots_of(simplified(line, PageGrid::tolerance_m));
    append_count(bytes_, spots.empty() ? 0 : 1);
    if (!spots.empty()) {
        append(spots);
    }
    ++rows_;
}

}  // namespace farwater::reports
