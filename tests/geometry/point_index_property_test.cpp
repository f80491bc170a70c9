#include <random>

#include <catch2/catch.hpp>

#include "analyzer/geometry/point_index.h"

using namespace farwater;

namespace {

// Coordinates from a few values, so that many points share them with each other and with the box.
std::vector<Point> random_points(std::mt19937& random, std::size_t count, int values) {
    std::uniform_int_distribution<int> coordinate(0, values);
    std::vector<Point> points(count);
    for (Point& p : points) {
        p = {static_cast<double>(coordinate(random)), static_cast<double>(coordinate(random))};
    }
    return points;
}

std::vector<std::uint32_t> inside_slowly(const std::vector<Point>& points, const Box& box) {
    std::vector<std::uint32_t> found;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Point p = points[i];
        if (p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y) {
            found.push_back(static_cast<std::uint32_t>(i));
        }
    }
    return found;
}

}  // namespace

TEST_CASE("the point index finds what looking at every point finds") {
    const unsigned seed = 20240517;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < 400; ++round) {
        const std::size_t count = random() % 200;
        const int values = 1 + static_cast<int>(random() % 40);
        const std::vector<Point> points = random_points(random, count, values);
        const PointIndex index(points);
        REQUIRE(index.size() == count);
        const std::vector<Point> corners = random_points(random, 2, values);
        Box box;
        box.include(corners[0]);
        box.include(corners[1]);
        CAPTURE(round, count, values);
        REQUIRE(index.inside(box) == inside_slowly(points, box));
    }
}

TEST_CASE("an empty box and an empty index hold no point") {
    CHECK(PointIndex({{0, 0}, {1, 1}}).inside(Box{}).empty());
    CHECK(PointIndex().inside(Box{{0, 0}, {1, 1}}).empty());
}
