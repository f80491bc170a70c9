#include "analyzer/geometry/shared_borders.h"

#include <algorithm>
#include <cmath>
#include <compare>
#include <iterator>
#include <utility>
#include <vector>

namespace farwater {
namespace {

// --- sides on the grid ---------------------------------------------------------------------------

// In steps of the grid.
struct Corner {
    std::int32_t x = 0;
    std::int32_t y = 0;
    friend constexpr auto operator<=>(const Corner&, const Corner&) = default;
};

// Ground is on its right.
struct Side {
    Corner from;
    Corner to;
    // Both ways along it.
    std::pair<Corner, Corner> line() const { return std::minmax(from, to); }
    friend constexpr auto operator<=>(const Side&, const Side&) = default;
};

using Corners = std::vector<Corner>;  // of a ring, each once

std::int64_t cross(Corner origin, Corner a, Corner b) {
    const auto along = [](std::int32_t from, std::int32_t to) { return std::int64_t{to} - from; };
    return along(origin.x, a.x) * along(origin.y, b.y) -
           along(origin.y, a.y) * along(origin.x, b.x);
}

// Twice the area, positive where the ring turns left.
double turning(const Corners& ring) {
    double sum = 0.0;
    for (std::size_t i = 2; i < ring.size(); ++i) {
        sum += static_cast<double>(cross(ring[0], ring[i - 1], ring[i]));
    }
    return sum;
}

// None beyond the grid.
std::optional<Corners> on_grid(const Polyline& ring, double grid_m) {
    constexpr double most = 1 << 30;
    Corners corners;
    for (const Point p : ring) {
        const double x = std::floor(p.x / grid_m + 0.5);
        const double y = std::floor(p.y / grid_m + 0.5);
        if (!(std::abs(x) < most && std::abs(y) < most)) {
            return std::nullopt;
        }
        const Corner corner{static_cast<std::int32_t>(x), static_cast<std::int32_t>(y)};
        if (corners.empty() || corners.back() != corner) {
            corners.push_back(corner);
        }
    }
    if (corners.size() > 1 && corners.front() == corners.back()) {
        corners.pop_back();
    }
    return corners;
}

void add_sides(Corners ring, bool hole, std::vector<Side>& sides) {
    if ((turning(ring) > 0.0) != hole) {
        std::ranges::reverse(ring);
    }
    for (std::size_t i = 0; i < ring.size() && ring.size() > 1; ++i) {
        sides.push_back({ring[i], ring[(i + 1) % ring.size()]});
    }
}

// False beyond the grid.
bool add_sides(const Polygon& polygon, double grid_m, std::vector<Side>& sides) {
    const auto add = [&](const Polyline& line, bool hole) {
        const std::optional<Corners> ring = on_grid(line, grid_m);
        if (ring) {
            add_sides(*ring, hole, sides);
        }
        return ring.has_value();
    };
    return add(polygon.shell, false) &&
           std::ranges::all_of(polygon.holes,
                               [&](const Polyline& hole) { return add(hole, true); });
}

std::optional<std::vector<Side>> all_sides(const Footprints& shapes,
                                           std::span<const std::uint32_t> which, double grid_m) {
    std::vector<Side> sides;
    for (const std::uint32_t i : which) {
        for (const Polygon& polygon : shapes.shape(i)) {
            if (!add_sides(polygon, grid_m, sides)) {
                return std::nullopt;
            }
        }
    }
    return sides;
}

// Those without one the other way, by where they begin; false where one is left more than once.
bool cancel(std::vector<Side>& sides) {
    std::ranges::sort(sides, {},
                      [](const Side& side) { return std::pair(side.line(), side.from); });
    auto kept = sides.begin();
    for (auto begin = sides.begin(); begin != sides.end();) {
        const auto end = std::find_if(
            begin, sides.end(), [&](const Side& side) { return side.line() != begin->line(); });
        const Side forward = *begin;
        const auto same = std::count(begin, end, forward);
        const auto back = (end - begin) - same;
        if (std::abs(same - back) > 1) {
            return false;
        }
        if (same != back) {
            *kept++ = same > back ? forward : Side{forward.to, forward.from};
        }
        begin = end;
    }
    sides.erase(kept, sides.end());
    std::ranges::sort(sides);
    return true;
}

// --- rings of what is left -----------------------------------------------------------------------

// Where a way from `v` to `w` comes, turning left from the way back to `u`.
struct TurnFrom {
    Corner v;
    Corner u;

    // Left, straight on or right.
    int half(Corner w) const {
        const std::int64_t turn = cross(v, u, w);
        return turn > 0 ? 0 : turn == 0 ? 1 : 2;
    }
    bool operator()(const Side& a, const Side& b) const {
        const int half_a = half(a.to);
        const int half_b = half(b.to);
        return half_a != half_b ? half_a < half_b : cross(v, a.to, b.to) > 0;
    }
};

// Walks round ground along the sides that are left.
class Rings {
public:
    explicit Rings(const std::vector<Side>& sides) : sides_(sides), used_(sides.size()) {}

    // False where the sides make no rings.
    bool trace() {
        for (std::size_t side = 0; side < sides_.size(); ++side) {
            if (!used_[side] && !trace_from(side)) {
                return false;
            }
        }
        return true;
    }
    const std::vector<Corners>& found() const { return found_; }

private:
    using Range = std::span<const Side>;

    Range sides_from(Corner corner) const {
        const auto [begin, end] = std::ranges::equal_range(sides_, corner, {}, &Side::from);
        return {begin, end};
    }
    // The side next to `side` round the same ground.
    static const Side& next(const Side& side, Range ways) {
        return ways.size() == 1 ? ways.front()
                                : *std::ranges::min_element(ways, TurnFrom{side.to, side.from});
    }
    // The loop since the way was at this corner before, if it was.
    void cut_off(Corner corner) {
        const auto begin = std::ranges::find(way_, corner);
        if (begin != way_.end()) {
            found_.emplace_back(begin, way_.end());
            way_.erase(begin, way_.end());
        }
    }
    bool trace_from(std::size_t first) {
        way_.clear();
        for (std::size_t side = first; !used_[side];) {
            used_[side] = true;
            way_.push_back(sides_[side].from);
            const Range ways = sides_from(sides_[side].to);
            if (ways.empty()) {
                return false;
            }
            const Side& onward = next(sides_[side], ways);
            side = static_cast<std::size_t>(&onward - sides_.data());
            if (side == first || ways.size() > 1) {
                cut_off(onward.from);
            }
            if (side == first) {
                return way_.empty();
            }
        }
        return false;
    }

    const std::vector<Side>& sides_;
    std::vector<bool> used_;
    Corners way_;
    std::vector<Corners> found_;
};

Polyline closed_line(const Corners& ring, double grid_m) {
    Polyline line;
    line.reserve(ring.size() + 1);
    for (const Corner corner : ring) {
        line.push_back({corner.x * grid_m, corner.y * grid_m});
    }
    line.push_back(line.front());
    return line;
}

// --- holes ---------------------------------------------------------------------------------------

bool covers(const Box& box, Point p) {
    return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

Point middle_of_a_side(const Polyline& ring) {
    return {(ring[0].x + ring[1].x) / 2.0, (ring[0].y + ring[1].y) / 2.0};
}

// To the smallest part that it lies in; false where there is none.
bool give_holes(std::vector<Polyline>&& holes, MultiPolygon& parts) {
    if (parts.size() == 1) {
        parts.front().holes = std::move(holes);
        return true;
    }
    std::vector<std::pair<double, std::size_t>> by_area;
    std::vector<Box> boxes;
    for (const Polygon& part : parts) {
        by_area.emplace_back(area_m2({part}), by_area.size());
        boxes.push_back(box_of({part}));
    }
    std::ranges::sort(by_area);
    for (Polyline& hole : holes) {
        const Point p = middle_of_a_side(hole);
        const auto inside = [&](const auto& entry) {
            return covers(boxes[entry.second], p) && contains(parts[entry.second], p);
        };
        const auto found = std::ranges::find_if(by_area, inside);
        if (found == by_area.end()) {
            return false;
        }
        parts[found->second].holes.push_back(std::move(hole));
    }
    return true;
}

}  // namespace

std::optional<MultiPolygon> without_shared_borders(const Footprints& shapes,
                                                   std::span<const std::uint32_t> which,
                                                   double grid_m) {
    std::optional<std::vector<Side>> sides = all_sides(shapes, which, grid_m);
    if (!sides || !cancel(*sides)) {
        return std::nullopt;
    }
    Rings rings(*sides);
    if (!rings.trace()) {
        return std::nullopt;
    }
    MultiPolygon parts;
    std::vector<Polyline> holes;
    for (const Corners& ring : rings.found()) {
        if (turning(ring) < 0.0) {
            parts.push_back({closed_line(ring, grid_m), {}});
        } else {
            holes.push_back(closed_line(ring, grid_m));
        }
    }
    return give_holes(std::move(holes), parts) ? std::optional(std::move(parts)) : std::nullopt;
}

}  // namespace farwater
