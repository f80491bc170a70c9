#include "sample_region/generate/cells.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include <boost/polygon/voronoi.hpp>

namespace farwater::sample {
namespace {

using Diagram = boost::polygon::voronoi_diagram<double>;

struct Grid {  // whole centimetres from the origin
    std::int64_t x, y;
    friend auto operator<=>(const Grid&, const Grid&) = default;
};

// Numbers the different places in the order of their coordinates: `number[i]` for places[i].
std::vector<std::int32_t> numbered(const std::vector<Grid>& places, std::vector<Grid>& different) {
    different = places;
    std::sort(different.begin(), different.end());
    different.erase(std::unique(different.begin(), different.end()), different.end());
    std::vector<std::int32_t> number;
    number.reserve(places.size());
    for (const Grid& place : places) {
        const auto at = std::lower_bound(different.begin(), different.end(), place);
        number.push_back(static_cast<std::int32_t>(at - different.begin()));
    }
    return number;
}

std::vector<boost::polygon::point_data<std::int32_t>> in_centimetres(
    const std::vector<Point>& sites, Point origin) {
    std::vector<boost::polygon::point_data<std::int32_t>> points;
    points.reserve(sites.size());
    for (const Point site : sites) {
        points.emplace_back(static_cast<std::int32_t>(std::lround((site.x - origin.x) * 100)),
                            static_cast<std::int32_t>(std::lround((site.y - origin.y) * 100)));
    }
    return points;
}

}  // namespace

Cells cut_into_cells(const std::vector<Point>& sites, Point origin) {
    const auto points = in_centimetres(sites, origin);
    Diagram diagram;
    boost::polygon::construct_voronoi(points.begin(), points.end(), &diagram);
    std::vector<Grid> places;
    places.reserve(diagram.vertices().size());
    for (const auto& vertex : diagram.vertices()) {
        places.push_back({std::llround(vertex.x()), std::llround(vertex.y())});
    }
    std::vector<Grid> different;
    const std::vector<std::int32_t> number = numbered(places, different);

    Cells cells;
    const auto cm = [](double metres) { return std::llround(metres * 100); };
    for (const Grid& place : different) {
        cells.corners.push_back({static_cast<double>(cm(origin.x) + place.x) / 100,
                                 static_cast<double>(cm(origin.y) + place.y) / 100});
    }
    const auto* const first = diagram.vertices().data();
    for (const auto& edge : diagram.edges()) {
        const auto left = static_cast<std::int32_t>(edge.cell()->source_index());
        const auto right = static_cast<std::int32_t>(edge.twin()->cell()->source_index());
        if (left < right && edge.is_finite()) {
            const std::int32_t from = number[static_cast<std::size_t>(edge.vertex0() - first)];
            const std::int32_t to = number[static_cast<std::size_t>(edge.vertex1() - first)];
            if (from != to) {
                cells.sides.push_back({left, right, from, to});
            }
        }
    }
    std::sort(cells.sides.begin(), cells.sides.end(), [](const CellSide& a, const CellSide& b) {
        return std::pair(a.left, a.right) < std::pair(b.left, b.right);
    });
    return cells;
}

std::vector<double> cell_areas(const Cells& cells, std::size_t sites) {
    std::vector<double> twice(sites, 0);
    const Point origin = cells.corners.empty() ? Point{} : cells.corners.front();
    for (const CellSide& side : cells.sides) {
        const Point a = cells.corners[static_cast<std::size_t>(side.from)] - origin;
        const Point b = cells.corners[static_cast<std::size_t>(side.to)] - origin;
        twice[static_cast<std::size_t>(side.left)] += cross(a, b);
        twice[static_cast<std::size_t>(side.right)] -= cross(a, b);
    }
    for (double& value : twice) {
        value /= 2;
    }
    return twice;
}

}  // namespace farwater::sample
