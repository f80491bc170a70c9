#include "routing/noding/crossings.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "routing/structures/grid.h"
#include "routing/structures/keyed.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr std::size_t vertices_a_chunk = 16384;
constexpr double least_reach = 1e-3;  // metres; nearer than this the sign of a side is no proof

// Twice the area of the triangle: positive where p lies left of the way from a to b.
double side_of(Point a, Point b, Point p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

// Where two segments cross that do; the same whichever is named first.
Point crossing_of(Point a0, Point a1, Point b0, Point b1) {
    if (std::pair(b0, b1) < std::pair(a0, a1)) {
        std::swap(a0, b0);
        std::swap(a1, b1);
    }
    const double before = side_of(b0, b1, a0);
    const double share = before / (before - side_of(b0, b1, a1));
    return {a0.x + share * (a1.x - a0.x), a0.y + share * (a1.y - a0.y)};
}

double metres_apart(Point p, Point q) { return std::sqrt(distance_squared(p, q)); }

// Segments are known by their first vertex.
struct BoxedSegment {
    double left, right, low, high;
    std::uint32_t segment;
};

// The rules of meeting. Cheap to copy; refers to what it was made of.
class Meeter {
public:
    Meeter(const std::vector<Road>& roads, const Vertices& vertices, const JoinReach& reach)
        : roads_(roads),
          vertices_(vertices),
          reach_(reach),
          end_(std::max(reach.end, least_reach)),
          inside_(std::max(reach.inside, least_reach)) {}

    // The meetings of the segments that are named in one cell.
    void append_meetings(std::span<const Keyed> cell, std::vector<Meeting>& meetings) const {
        std::vector<BoxedSegment> boxes;
        boxes.reserve(cell.size());
        for (const Keyed& entry : cell) {
            boxes.push_back(boxed(entry.position));
        }
        std::ranges::sort(boxes, [](const BoxedSegment& a, const BoxedSegment& b) {
            return std::pair(a.left, a.segment) < std::pair(b.left, b.segment);
        });
        for (auto one = boxes.begin(); one != boxes.end(); ++one) {
            for (auto other = one + 1; other != boxes.end() && other->left <= one->right + end_;
                 ++other) {
                if (other->low <= one->high + end_ && one->low <= other->high + end_) {
                    const auto [a, b] = std::minmax(one->segment, other->segment);
                    append_meetings(a, b, meetings);
                }
            }
        }
    }

private:
    BoxedSegment boxed(std::uint32_t segment) const {
        Box box;
        box.include(point(segment));
        box.include(point(segment + 1));
        return {box.low.x, box.high.x, box.low.y, box.high.y, segment};
    }

    void append_meetings(std::uint32_t a, std::uint32_t b, std::vector<Meeting>& meetings) const {
        if (a == b || leads_on(a, b) || far_aside(a, b) || far_aside(b, a) || !on_one_level(a, b)) {
            return;
        }
        const bool a_touches = append_touches(a, b, meetings);
        const bool b_touches = append_touches(b, a, meetings);
        if (!a_touches && !b_touches && cross(a, b)) {
            append_crossing(a, b, meetings);
        }
    }

    // Neighbours on one line that do not fold back: nothing of one comes near the inside of the
    // other.
    bool leads_on(std::uint32_t a, std::uint32_t b) const {
        const Point p = point(a);
        const Point q = point(b);
        const Point r = point(b + 1);
        return a + 1 == b && vertices_.roads[a] == vertices_.roads[b] &&
               (q.x - p.x) * (r.x - q.x) + (q.y - p.y) * (r.y - q.y) >= 0.0;
    }

    // One segment lies on one side of the other's line, out of reach.
    bool far_aside(std::uint32_t segment, std::uint32_t of) const {
        const double from = side_of(point(of), point(of + 1), point(segment));
        const double to = side_of(point(of), point(of + 1), point(segment + 1));
        const double out_of_reach =
            1.000001 * end_ * end_ * distance_squared(point(of), point(of + 1));
        return (from > 0.0) == (to > 0.0) && std::min(from * from, to * to) > out_of_reach;
    }

    bool on_one_level(std::uint32_t a, std::uint32_t b) const {
        const Road& one = road(a);
        const Road& other = road(b);
        return one.level == other.level && !one.bridge && !other.bridge && !one.tunnel &&
               !other.tunnel;
    }

    bool cross(std::uint32_t a, std::uint32_t b) const {
        const auto parted_by = [&](std::uint32_t by, std::uint32_t segment) {
            const double from = side_of(point(by), point(by + 1), point(segment));
            const double to = side_of(point(by), point(by + 1), point(segment + 1));
            return (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0);
        };
        return parted_by(a, b) && parted_by(b, a);
    }

    void append_crossing(std::uint32_t a, std::uint32_t b, std::vector<Meeting>& meetings) const {
        const Point at = crossing_of(point(a), point(a + 1), point(b), point(b + 1));
        const LinePlace on_a{a, metres_apart(point(a), at)};
        const LinePlace on_b{b, metres_apart(point(b), at)};
        if (!next_door(on_a, on_b)) {
            meetings.push_back({on_a, on_b, at, MeetingKind::crosses});
        }
    }

    // True when an end of one segment is within reach of the other, whatever comes of it. A vertex
    // between two segments is dealt with where the second begins.
    bool append_touches(std::uint32_t of, std::uint32_t segment,
                        std::vector<Meeting>& meetings) const {
        const bool first = within_reach(of, segment);
        const bool second = within_reach(of + 1, segment);
        if (first) {
            append_touch(of, segment, meetings);
        }
        if (second && vertices_.is_last(of + 1)) {
            append_touch(of + 1, segment, meetings);
        }
        return first || second;
    }

    bool within_reach(std::uint32_t vertex, std::uint32_t segment) const {
        const double reach = vertices_.is_end(vertex) ? end_ : inside_;
        return apart_squared(vertex, segment) <= reach * reach;
    }

    double apart_squared(std::uint32_t vertex, std::uint32_t segment) const {
        return distance_squared(nearest_on(point(segment), point(segment + 1), point(vertex)),
                                point(vertex));
    }

    void append_touch(std::uint32_t vertex, std::uint32_t segment,
                      std::vector<Meeting>& meetings) const {
        if (vertex == segment || vertex == segment + 1 || shares(vertex, segment) ||
            shares(vertex, segment + 1) || nearer_next_to(vertex, segment)) {
            return;
        }
        const Point place = nearest_on(point(segment), point(segment + 1), point(vertex));
        const LinePlace there = at_a_vertex_if_near(segment, place);
        const LinePlace here{vertex, 0.0};
        const auto [a, b] = std::minmax(here, there);
        if (!next_door(a, b)) {
            meetings.push_back(
                {a, b, place,
                 vertices_.is_end(vertex) ? MeetingKind::ends_on : MeetingKind::touches});
        }
    }

    // Whether the vertices are near enough to be joined as vertices.
    bool shares(std::uint32_t a, std::uint32_t b) const {
        const double reach = reach_.between(vertices_.is_end(a) || vertices_.is_end(b));
        return distance_squared(point(a), point(b)) <= reach * reach;
    }

    // Whether the segment before or after comes nearer to the vertex; of equals, rounding left
    // aside, the first stays.
    bool nearer_next_to(std::uint32_t vertex, std::uint32_t segment) const {
        constexpr double equal = 1e-6;  // metres
        const double apart = std::sqrt(apart_squared(vertex, segment));
        const bool before = !vertices_.is_first(segment) && vertex + 1 != segment;
        const bool after = !vertices_.is_last(segment + 1) && vertex != segment + 2;
        return (before && std::sqrt(apart_squared(vertex, segment - 1)) <= apart + equal) ||
               (after && std::sqrt(apart_squared(vertex, segment + 1)) < apart - equal);
    }

    LinePlace at_a_vertex_if_near(std::uint32_t segment, Point place) const {
        const double to_first = metres_apart(point(segment), place);
        const double to_second = metres_apart(place, point(segment + 1));
        if (std::min(to_first, to_second) > merged_within(reach_)) {
            return {segment, to_first};
        }
        return {to_first <= to_second ? segment : segment + 1, 0.0};
    }

    // On one line, and no farther apart along it than the trace of joining. Precondition: a <= b.
    bool next_door(const LinePlace& a, const LinePlace& b) const {
        if (vertices_.roads[a.vertex] != vertices_.roads[b.vertex]) {
            return false;
        }
        const double loop = std::max(reach_.shortest_loop(), 2.0 * least_reach);
        return metres_between(vertices_, a.vertex, b.vertex, loop + a.beyond) - a.beyond +
                   b.beyond <=
               loop;
    }

    const Road& road(std::uint32_t vertex) const { return roads_[vertices_.roads[vertex]]; }
    Point point(std::uint32_t vertex) const { return vertices_.points[vertex]; }

    const std::vector<Road>& roads_;
    const Vertices& vertices_;
    JoinReach reach_;
    double end_;
    double inside_;
};

// Puts every segment under the cells that it passes within the reach. Cells that differ may share a
// key.
class CellWriter {
public:
    explicit CellWriter(double reach) : reach_(reach), size_(std::max(64.0, 8.0 * reach)) {}

    void write(Point a, Point b, std::uint32_t segment, std::vector<Keyed>& entries) const {
        if (b.x < a.x) {
            std::swap(a, b);
        }
        const double slope = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0.0;
        const std::int64_t last = cell(b.x + reach_);
        for (std::int64_t x = cell(a.x - reach_); x <= last; ++x) {
            const double left = std::max(static_cast<double>(x) * size_ - reach_, a.x);
            const double right = std::min(static_cast<double>(x + 1) * size_ + reach_, b.x);
            const double y0 = left > a.x ? a.y + (left - a.x) * slope : a.y;
            const double y1 = right < b.x ? a.y + (right - a.x) * slope : b.y;
            const std::int64_t top = cell(std::max(y0, y1) + reach_);
            for (std::int64_t y = cell(std::min(y0, y1) - reach_); y <= top; ++y) {
                entries.push_back({key(x, y), segment});
            }
        }
    }

private:
    std::int64_t cell(double value) const { return cell_coordinate(value, size_); }
    static std::uint32_t key(std::int64_t x, std::int64_t y) {
        return ((static_cast<std::uint32_t>(y) & 0xffffU) << 16U) |
               (static_cast<std::uint32_t>(x) & 0xffffU);
    }

    double reach_;  // with room for the rounding of the slope
    double size_;
};

std::vector<Keyed> vertices_by_cell(const Vertices& vertices, double reach) {
    const CellWriter writer(reach);
    std::vector<Keyed> entries;
    entries.reserve(2 * vertices.points.size());
    for (std::uint32_t v = 0; v < vertices.points.size(); ++v) {
        if (vertices.takes_part(v) && !vertices.is_last(v)) {
            writer.write(vertices.points[v], vertices.points[v + 1], v, entries);
        }
    }
    return sorted_by_key(std::move(entries));
}

std::vector<Meeting> gathered(const std::vector<std::vector<Meeting>>& parts) {
    std::vector<Meeting> all;
    for (const std::vector<Meeting>& part : parts) {
        all.insert(all.end(), part.begin(), part.end());
    }
    std::ranges::sort(all);
    const auto repeated = std::ranges::unique(all);
    all.erase(repeated.begin(), repeated.end());
    return all;
}

}  // namespace

double merged_within(const JoinReach& reach) { return std::max(reach.inside, least_reach); }

std::vector<Meeting> find_crossings(const std::vector<Road>& roads, const Vertices& vertices,
                                    const JoinReach& reach, const Work& work) {
    const Meeter meeter(roads, vertices, reach);
    const std::vector<Keyed> entries =
        vertices_by_cell(vertices, std::max(reach.end, least_reach) + least_reach);
    std::vector<std::vector<Meeting>> parts(entries.size() / vertices_a_chunk + 1);
    const auto meet_some = [&](std::size_t begin, std::size_t end) {
        std::vector<Meeting>& found = parts[begin / vertices_a_chunk];
        visit_keys(entries, begin, end,
                   [&](std::span<const Keyed> cell) { meeter.append_meetings(cell, found); });
    };
    for_each_chunk(work, "road crossings", entries.size(), vertices_a_chunk, meet_some);
    return gathered(parts);
}

}  // namespace farwater::routing
