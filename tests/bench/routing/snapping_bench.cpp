// The nearest road of a million points among 1.28 million segments, exact, against GEOS's tree with
// its nearest-neighbour query on the same data. Distances that differ fail.
//   bench_snapping_bench [points] [nodes]
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <geos_c.h>

#include "routing/access.h"
#include "routing/structures/hilbert.h"
#include "routing/structures/nearest_road.h"
#include "tests/bench/support/measured.h"
#include "tests/bench/support/rural_network.h"

namespace {

using namespace farwater;
using namespace farwater::bench;
using namespace farwater::routing;

constexpr double far = 1e6;  // metres: nearest whatever the distance

std::vector<Point> houses_of(const District& district) {
    std::vector<Point> houses;
    for (const Parcel& parcel : district.parcels) {
        houses.push_back(parcel.house);
    }
    return houses;
}

struct Segments {
    std::vector<std::pair<Point, Point>> ends;

    explicit Segments(const District& district) {
        for (const Road& road : district.roads) {
            for (std::size_t i = 1; i < road.line.size(); ++i) {
                ends.emplace_back(road.line[i - 1], road.line[i]);
            }
        }
    }
};

// Our way: a grid, points in spatial order. Distances in the order given.
std::vector<double> by_grid(const District& district, const std::vector<Point>& points) {
    const auto any = [](std::uint32_t) { return true; };
    const RoadFinder finder(district.roads, any);
    const std::vector<std::uint32_t> order = spatial_order(points);
    std::vector<Point> in_order(points.size());
    std::ranges::transform(order, in_order.begin(), [&](std::uint32_t i) { return points[i]; });
    std::vector<double> apart(points.size());
    for (std::size_t k = 0; k < order.size(); ++k) {
        const auto nearest = finder.nearest(in_order[k], far, any, [](std::uint32_t) { return 0; });
        apart[order[k]] = std::sqrt(nearest->apart_squared);
    }
    return apart;
}

double apart(Point p, const std::pair<Point, Point>& segment) {
    return std::sqrt(distance_squared(nearest_on(segment.first, segment.second, p), p));
}

// An item of the tree is a segment; the query's item is a point.
int distance_of(const void* segment, const void* point, double* distance, void*) {
    *distance = apart(*static_cast<const Point*>(point),
                      *static_cast<const std::pair<Point, Point>*>(segment));
    return 1;
}

class GeosTree {
public:
    // The first query builds the tree.
    explicit GeosTree(Segments& segments)
        : context_(GEOS_init_r()), tree_(GEOSSTRtree_create_r(context_, 10)) {
        for (auto& ends : segments.ends) {
            GEOSCoordSequence* line = GEOSCoordSeq_create_r(context_, 2, 2);
            GEOSCoordSeq_setXY_r(context_, line, 0, ends.first.x, ends.first.y);
            GEOSCoordSeq_setXY_r(context_, line, 1, ends.second.x, ends.second.y);
            GEOSGeometry* geometry = GEOSGeom_createLineString_r(context_, line);
            GEOSSTRtree_insert_r(context_, tree_, geometry, &ends);
            GEOSGeom_destroy_r(context_, geometry);
        }
    }
    ~GeosTree() {
        GEOSSTRtree_destroy_r(context_, tree_);
        GEOS_finish_r(context_);
    }
    GeosTree(const GeosTree&) = delete;
    GeosTree& operator=(const GeosTree&) = delete;

    double nearest(Point p) const {
        GEOSGeometry* place = GEOSGeom_createPointFromXY_r(context_, p.x, p.y);
        const void* found =
            GEOSSTRtree_nearest_generic_r(context_, tree_, &p, place, distance_of, nullptr);
        GEOSGeom_destroy_r(context_, place);
        return apart(p, *static_cast<const std::pair<Point, Point>*>(found));
    }

private:
    GEOSContextHandle_t context_;
    GEOSSTRtree* tree_;
};

std::vector<double> by_geos(Segments& segments, const std::vector<Point>& points) {
    const GeosTree tree(segments);
    std::vector<double> apart(points.size());
    std::ranges::transform(points, apart.begin(), [&](Point p) { return tree.nearest(p); });
    return apart;
}

std::vector<Point> sorted(const std::vector<Point>& points) {
    std::vector<Point> in_order;
    for (const std::uint32_t i : spatial_order(points)) {
        in_order.push_back(points[i]);
    }
    return in_order;
}

double sum_of(const std::vector<double>& distances) {
    double sum = 0.0;
    for (const double one : distances) {
        sum += one;
    }
    return sum;
}

}  // namespace

int main(int argc, char** argv) {
    const std::size_t points = argc > 1 ? std::stoul(argv[1]) : 1'000'000;
    const std::size_t nodes = argc > 2 ? std::stoul(argv[2]) : 1'000'000;
    RuralNetwork roads({nodes, points, 0, 1});
    const std::vector<Point> shuffled = houses_of(roads.district);
    const std::vector<Point> in_order = sorted(shuffled);
    Segments segments(roads.district);
    std::vector<double> theirs;
    std::vector<double> ours;
    std::vector<double> ours_shuffled;
    const Seconds grid = least_seconds(3, [&] { ours = by_grid(roads.district, in_order); });
    const Seconds mixed =
        least_seconds(3, [&] { ours_shuffled = by_grid(roads.district, shuffled); });
    const Seconds geos = seconds_of([&] { theirs = by_geos(segments, in_order); });
    const Seconds geos_mixed = seconds_of([&] { by_geos(segments, shuffled); });
    const auto find = [&] { find_access(roads.district, roads.network, roads.profiles, Work{}); };
    const Seconds access_mixed = least_seconds(3, find);
    for (std::size_t i = 0; i < points; ++i) {
        roads.district.parcels[i].house = in_order[i];
    }
    const Seconds access = least_seconds(3, find);
    const bool equal = ours == theirs && std::abs(sum_of(ours) - sum_of(ours_shuffled)) < 1e-3;

    fmt::print("{} points, {} segments, cpu s with building; distances {}\n", points,
               segments.ends.size(), equal ? "equal" : "DIFFERENT");
    fmt::print("{:<34} {:6.2f}\n{:<34} {:6.2f}\n", "grid, points sorted", grid.cpu,
               "grid, points shuffled", mixed.cpu);
    fmt::print("{:<34} {:6.2f}\n{:<34} {:6.2f}\n", "GEOS nearest, points sorted", geos.cpu,
               "GEOS nearest, points shuffled", geos_mixed.cpu);
    fmt::print("{:<34} {:6.2f}\n{:<34} {:6.2f}\n", "find_access, houses sorted", access.cpu,
               "find_access, houses shuffled", access_mixed.cpu);
    fmt::print("grid / GEOS, both sorted: {:.2f} (goal: at most 0.35)\n", grid.cpu / geos.cpu);
    fmt::print("grid, shuffled / sorted: {:.2f} (goal: at most 1.3)\n", mixed.cpu / grid.cpu);
    fmt::print("find_access / GEOS, both sorted: {:.2f}; shuffled / sorted: {:.2f}\n",
               access.cpu / geos.cpu, access_mixed.cpu / access.cpu);
    return equal ? EXIT_SUCCESS : EXIT_FAILURE;
}
