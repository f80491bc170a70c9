// The nearest place on a road, exact on the true segments.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/road.h"
#include "routing/structures/grid.h"

namespace farwater::routing {

struct Segment {
    std::uint32_t road = 0;
    std::uint32_t vertex = 0;  // from this vertex of the line to the next
};

struct NearestPlace {
    Segment segment;
    Point place;
    double apart_squared = INFINITY;  // square metres
};

// The point of a segment nearest to p.
inline Point nearest_on(Point a, Point b, Point p) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double on = (p.x - a.x) * dx + (p.y - a.y) * dy;
    const double square = dx * dx + dy * dy;
    if (on <= 0.0 || square <= 0.0) {
        return a;
    }
    return on >= square ? b : Point{a.x + on / square * dx, a.y + on / square * dy};
}

class RoadFinder {
public:
    // Of the roads that pass `keep(road position)`; keeps a reference to the roads. O(vertices).
    template <class Keep>
    RoadFinder(const std::vector<Road>& roads, Keep keep)
        : roads_(roads), grid_(cell_size, segments_of(roads), [&](const auto& grid, auto put) {
              for (std::uint32_t r = 0; r < roads.size(); ++r) {
                  for (std::uint32_t i = 0; keep(r) && i + 1 < roads[r].line.size(); ++i) {
                      put_segment(grid, roads[r].line[i], roads[r].line[i + 1], Segment{r, i}, put);
                  }
              }
          }) {}

    // The nearest place within reach on a road that passes `keep(road position)`. Of places equally
    // near the one of the least `rank(road position)`, then of the least road position; none when
    // there is none. The window grows until it holds the answer.
    template <class Keep, class Rank>
    std::optional<NearestPlace> nearest(Point p, double reach, Keep keep, Rank rank) const {
        std::optional<NearestPlace> best;
        CellRange seen{{0, 0}, {-1, -1}};
        for (double window = std::min(cell_size / 2, reach);;
             window = std::min(2 * window, reach)) {
            const CellRange range = grid_.around(p, window);
            for (Cell cell = range.low; cell.y <= range.high.y; ++cell.y) {
                for (cell.x = range.low.x; cell.x <= range.high.x; ++cell.x) {
                    if (!seen.contains(cell)) {
                        look_at(cell, p, reach, keep, rank, best);
                    }
                }
            }
            if (window >= reach || (best && best->apart_squared <= window * window)) {
                return best;
            }
            seen = range;
        }
    }

    // Calls visit(segment) at least once for each that comes into the box.
    template <class Visit>
    void visit_near(const Box& box, Visit visit) const {
        const Cell low = grid_.cell_of(box.low);
        const Cell high = grid_.cell_of(box.high);
        for (Cell cell = low; cell.y <= high.y; ++cell.y) {
            for (cell.x = low.x; cell.x <= high.x; ++cell.x) {
                for (const Segment segment : grid_.in(cell)) {
                    visit(segment);
                }
            }
        }
    }

    // Whether a road that passes `keep(road position)` is within `distance`.
    template <class Keep>
    bool any_within(Point p, double distance, Keep keep) const {
        const CellRange range = grid_.around(p, distance);
        for (Cell cell = range.low; cell.y <= range.high.y; ++cell.y) {
            for (cell.x = range.low.x; cell.x <= range.high.x; ++cell.x) {
                for (const Segment segment : grid_.in(cell)) {
                    if (keep(segment.road) &&
                        distance_squared(place_on(segment, p), p) <= distance * distance) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

private:
    static constexpr double cell_size = 200.0;  // metres; 100 m measured no better

    static std::size_t segments_of(const std::vector<Road>& roads) {
        std::size_t count = 0;
        for (const Road& road : roads) {
            count += road.line.size();
        }
        return count;
    }

    Point place_on(Segment segment, Point p) const {
        const Polyline& line = roads_[segment.road].line;
        return nearest_on(line[segment.vertex], line[segment.vertex + 1], p);
    }

    // The cells that a segment passes through, column by column.
    template <class Put>
    static void put_segment(const Grid<Segment>& grid, Point a, Point b, Segment segment, Put put) {
        if (b.x < a.x) {
            std::swap(a, b);
        }
        const Cell first = grid.cell_of(a);
        const Cell last = grid.cell_of(b);
        const double slope = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0.0;
        for (std::int64_t x = first.x; x <= last.x; ++x) {
            const double left = static_cast<double>(x) * cell_size;
            const double y0 = x == first.x ? a.y : a.y + (left - a.x) * slope;
            const double y1 = x == last.x ? b.y : a.y + (left + cell_size - a.x) * slope;
            constexpr double slack = 1e-3;  // metres, for the rounding of the crossings
            const Cell low = grid.cell_of({left, std::min(y0, y1) - slack});
            const Cell high = grid.cell_of({left, std::max(y0, y1) + slack});
            for (std::int64_t y = low.y; y <= high.y; ++y) {
                put(Cell{x, y}, segment);
            }
        }
    }

    template <class Keep, class Rank>
    void look_at(Cell cell, Point p, double reach, Keep keep, Rank rank,
                 std::optional<NearestPlace>& best) const {
        for (const Segment segment : grid_.in(cell)) {
            if (!keep(segment.road)) {
                continue;
            }
            const Point place = place_on(segment, p);
            const double apart = distance_squared(place, p);
            if (apart > reach * reach || (best && apart > best->apart_squared)) {
                continue;
            }
            if (!best || apart < best->apart_squared ||
                std::pair(rank(segment.road), segment.road) <
                    std::pair(rank(best->segment.road), best->segment.road)) {
                best = NearestPlace{segment, place, apart};
            }
        }
    }

    const std::vector<Road>& roads_;
    Grid<Segment> grid_;
};

// Metres from the start of the road's line to the place.
double metres_along(const std::vector<Road>& roads, const NearestPlace& nearest);

}  // namespace farwater::routing
