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

// Corners of cells at the rim may lie as good as infinitely far away.
std::int64_t near_grid(double centimetres) {
    constexpr double far = 1e9;
    return std::llround(std::clamp(centimetres, -far, far));
}

// Numbers the different places in the order of their coordinates: `number[i]` for places[i].
std::vector<std::int32_t> numbered(const std::vector<Grid>& places, std::vector<Grid>& different) {
    different = places;
    std::ranges::sort(different);
    const auto repeated = std::ranges::unique(different);
    different.erase(repeated.begin(), repeated.end());
    std::vector<std::int32_t> number;
    number.reserve(places.size());
    for (const Grid& place : places) {
        const auto at = std::ranges::lower_bound(different, place);
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
        places.push_back({near_grid(vertex.x()), near_grid(vertex.y())});
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
    std::ranges::sort(cells.sides, [](const CellSide& a, const CellSide& b) {
        return std::pair(a.left, a.right) < std::pair(b.left, b.right);
    });
    return cells;
}

std::vector<double> cell_areas(const Cells& cells, const std::vector<Point>& sites) {
    std::vector<double> areas(sites.size(), 0);
    // Seen from its own site each side adds a triangle; a far origin would cost all precision.
    const auto triangle = [&](std::int32_t site, std::int32_t from, std::int32_t to) {
        const Point origin = sites[static_cast<std::size_t>(site)];
        return cross(cells.corners[static_cast<std::size_t>(from)] - origin,
                     cells.corners[static_cast<std::size_t>(to)] - origin) /
               2;
    };
    for (const CellSide& side : cells.sides) {
        areas[static_cast<std::size_t>(side.left)] += triangle(side.left, side.from, side.to);
        areas[static_cast<std::size_t>(side.right)] += triangle(side.right, side.to, side.from);
    }
    return areas;
}

}  // namespace farwater::sample
