#include "routing/driving/edge_grades.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace farwater::routing {
namespace {

constexpr double neighbour_m = 30.0;
constexpr std::size_t roads_a_chunk = 1024;

using Height = std::optional<double>;  // metres

// Three places along one axis of the grid, a neighbour's distance apart: the cell before each and
// how far it lies from that to the next.
struct Three {
    std::array<std::size_t, 3> cell{};
    std::array<double, 3> share{};
    bool inside = false;
};

Three three_around(double middle, double apart, std::size_t cells) {
    Three three;
    const double last = static_cast<double>(cells) - 1.0;
    three.inside = cells > 1 && middle - apart >= 0.0 && middle + apart < last;
    for (std::size_t i = 0; three.inside && i < 3; ++i) {
        const double at = middle + apart * (static_cast<double>(i) - 1.0);
        three.cell[i] = static_cast<std::size_t>(at);
        three.share[i] = at - static_cast<double>(three.cell[i]);
    }
    return three;
}

// The sum of the nine heights; no number where one is not known.
double sum_of_nine(const ElevationGrid& grid, const Three& columns, const Three& rows) {
    double sum = 0.0;
    for (std::size_t r = 0; r < 3; ++r) {
        const float* north = grid.metres.data() + rows.cell[r] * grid.columns;
        const float* south = north + grid.columns;
        double of_north = 0.0;
        double of_south = 0.0;
        for (std::size_t c = 0; c < 3; ++c) {
            const std::size_t west = columns.cell[c];
            const double share = columns.share[c];
            of_north += double{north[west]} * (1.0 - share) + double{north[west + 1]} * share;
            of_south += double{south[west]} * (1.0 - share) + double{south[west + 1]} * share;
        }
        sum += of_north * (1.0 - rows.share[r]) + of_south * rows.share[r];
    }
    return sum;
}

// As nine calls of ElevationGrid::at would have it, in a fifth of the time.
Height height_at(const ElevationGrid& grid, Point p) {
    const double apart = neighbour_m / grid.cell;
    const Three columns = three_around((p.x - grid.north_west.x) / grid.cell, apart, grid.columns);
    const Three rows = three_around((grid.north_west.y - p.y) / grid.cell, apart, grid.rows);
    if (columns.inside && rows.inside) {
        const double sum = sum_of_nine(grid, columns, rows);
        if (!std::isnan(sum)) {
            return sum / 9.0;
        }
    }
    const std::optional<Length> own = grid.at(p);
    return own ? Height(in_metres(*own)) : std::nullopt;
}

Grade grade_of(const Height& low, const Height& high, double run) {
    if (!low || !high || !(run > 0.0)) {
        return no_grade;
    }
    const double grade = std::round((*high - *low) / run * 1e4);
    return static_cast<Grade>(
        std::clamp(grade, -double{steepest_counted}, double{steepest_counted}));
}

// Points along a line, asked for in ascending order.
class Walk {
public:
    explicit Walk(const Polyline& line) : line_(line) {}

    Point to(double along) {
        while (next_ + 1 < line_.size() && along > done_ + segment()) {
            done_ += segment();
            ++next_;
        }
        const double length = segment();
        const double share = length > 0.0 ? std::clamp((along - done_) / length, 0.0, 1.0) : 0.0;
        const Point a = line_[next_ - 1];
        const Point b = line_[next_];
        return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
    }

private:
    double segment() const { return in_metres(distance(line_[next_ - 1], line_[next_])); }

    const Polyline& line_;
    std::size_t next_ = 1;  // vertex at the end of the segment
    double done_ = 0.0;     // metres to the vertex before it
};

// Less a hair, so that a binary fraction does not make one step more.
std::size_t steps_of(const Edge& edge, double longest) {
    const double steps = std::ceil(in_metres(edge.length()) / longest - 1e-6);
    return static_cast<std::size_t>(std::max(steps, 1.0));
}

void fill_from_ground(const ElevationGrid& grid, const Edge& edge, Walk& walk,
                      std::span<Grade> steps) {
    const double step = in_metres(edge.length()) / static_cast<double>(steps.size());
    Height low = height_at(grid, walk.to(edge.begin));
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Height high =
            height_at(grid, walk.to(edge.begin + step * static_cast<double>(i + 1)));
        steps[i] = grade_of(low, high, step);
        low = high;
    }
}

// The grades of one road's edges, which stand together.
void fill_road(const ElevationGrid& grid, const Road& road, std::span<const Edge> edges,
               std::span<Grade> steps, std::span<const std::uint32_t> first) {
    if (edges.empty()) {
        return;
    }
    if (road.bridge || road.tunnel) {
        const Grade even =
            grade_of(height_at(grid, road.line.front()), height_at(grid, road.line.back()),
                     edges.back().end - edges.front().begin);
        std::ranges::fill(steps, even);
        return;
    }
    Walk walk(road.line);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        fill_from_ground(grid, edges[e], walk,
                         steps.subspan(first[e] - first[0], first[e + 1] - first[e]));
    }
}

}  // namespace

Grades edge_grades(const District& district, const Network& network, const Work& work) {
    const ElevationGrid& grid = district.elevation;
    Grades grades;
    if (grid.empty()) {
        return grades;
    }
    const double longest = std::max(in_metres(feet(100)), grid.cell);
    grades.first.reserve(network.edges.size() + 1);
    grades.first.push_back(0);
    for (const Edge& edge : network.edges) {
        grades.first.push_back(grades.first.back() +
                               static_cast<std::uint32_t>(steps_of(edge, longest)));
    }
    grades.steps.assign(grades.first.back(), no_grade);
    const std::span<const std::uint32_t> first(grades.first);
    const std::span<Grade> steps(grades.steps);
    const auto fill_some = [&](std::size_t begin, std::size_t end) {
        for (std::size_t r = begin; r < end && !work.stopped(); ++r) {
            const std::uint32_t from = network.first_edge[r];
            const std::uint32_t to = network.first_edge[r + 1];
            fill_road(grid, district.roads[r], network.edges_of(RoadIndex(r)),
                      steps.subspan(first[from], first[to] - first[from]),
                      first.subspan(from, to - from + 1));
        }
    };
    for_each_chunk(work, "grades", district.roads.size(), roads_a_chunk, fill_some);
    return grades;
}

}  // namespace farwater::routing
