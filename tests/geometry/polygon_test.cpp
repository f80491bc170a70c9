#include "analyzer/geometry/polygon.h"

#include <cmath>
#include <limits>

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

Polyline box(double west, double south, double east, double north) {
    return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

MultiPolygon square_with_hole() { return {{box(0, 0, 10, 10), {box(4, 4, 6, 6)}}}; }

// A U whose centroid lies in its gap.
MultiPolygon horseshoe() {
    return {{{{0, 0}, {10, 0}, {10, 10}, {8, 10}, {8, 1}, {2, 1}, {2, 10}, {0, 10}, {0, 0}}, {}}};
}

MultiPolygon bow_tie() { return {{{{0, 0}, {4, 4}, {4, 0}, {0, 4}, {0, 0}}, {}}}; }

}  // namespace

TEST_CASE("area leaves out holes and counts every part") {
    CHECK(area_m2(square_with_hole()) == 96.0);
    CHECK(area_m2({{box(0, 0, 2, 2), {}}, {box(5, 5, 6, 6), {}}}) == 5.0);
    CHECK(area_m2({}) == 0.0);
}

TEST_CASE("area does not care which way round a ring is drawn") {
    MultiPolygon shape = square_with_hole();
    std::reverse(shape[0].shell.begin(), shape[0].shell.end());
    CHECK(area_m2(shape) == 96.0);
    std::reverse(shape[0].holes[0].begin(), shape[0].holes[0].end());
    CHECK(area_m2(shape) == 96.0);
}

TEST_CASE("area keeps its digits far from the origin") {
    const double east = 300000.0;
    const double north = 4800000.0;
    CHECK(area_m2({{box(east, north, east + 0.1, north + 0.1), {}}}) == Approx(0.01).epsilon(1e-6));
}

TEST_CASE("the box of a shape goes round all its parts") {
    const Box around = box_of({{box(0, 0, 2, 2), {}}, {box(5, -5, 6, 6), {}}});
    CHECK(around.low == Point{0, -5});
    CHECK(around.high == Point{6, 6});
    CHECK(box_of({}).empty());
}

TEST_CASE("a point in a hole is not in the polygon") {
    CHECK(contains(square_with_hole(), {1, 1}));
    CHECK_FALSE(contains(square_with_hole(), {5, 5}));
    CHECK_FALSE(contains(square_with_hole(), {11, 5}));
}

TEST_CASE("a point on the border of a tiling lies in exactly one tile") {
    const MultiPolygon west{{box(0, 0, 10, 10), {}}};
    const MultiPolygon east{{box(10, 0, 20, 10), {}}};
    const MultiPolygon above{{box(0, 10, 20, 20), {}}};
    for (const Point p : {Point{10, 5}, Point{10, 10}, Point{5, 10}, Point{15, 10}}) {
        CAPTURE(p.x, p.y);
        CHECK(contains(west, p) + contains(east, p) + contains(above, p) == 1);
    }
}

TEST_CASE("the inside point is the centroid where the centroid lies inside") {
    const auto point = inside_point({{box(0, 0, 10, 4), {}}});
    REQUIRE(point);
    CHECK(*point == Point{5, 2});
}

TEST_CASE("the inside point of a horseshoe lies in the horseshoe") {
    REQUIRE(centroid(horseshoe()));
    CHECK_FALSE(contains(horseshoe(), *centroid(horseshoe())));
    const auto point = inside_point(horseshoe());
    REQUIRE(point);
    CHECK(contains(horseshoe(), *point));
}

TEST_CASE("a shape without area has no centroid and a shape without vertices no inside point") {
    CHECK_FALSE(centroid({{{{0, 0}, {1, 1}, {2, 2}, {0, 0}}, {}}}));
    CHECK_FALSE(inside_point({}));
    CHECK_FALSE(inside_point({{{}, {}}}));
}

TEST_CASE("validity follows the simple-feature rules") {
    CHECK(is_valid(square_with_hole()));
    CHECK_FALSE(is_valid(bow_tie()));
    CHECK_FALSE(is_valid({}));
    CHECK_FALSE(is_valid({{{{0, 0}, {1, 0}, {0, 0}}, {}}}));
    CHECK_FALSE(is_valid({{{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, {}}}));
    CHECK_FALSE(is_valid({{box(0, 0, 10, 10), {box(20, 20, 22, 22)}}}));
}

TEST_CASE("a bow tie is repaired into its two wings") {
    const auto mended = repaired(bow_tie());
    REQUIRE(mended);
    CHECK(is_valid(*mended));
    CHECK(mended->size() == 2);
    CHECK(area_m2(*mended) == Approx(8.0));
}

TEST_CASE("parts that overlap are united and the overlap stays land") {
    const auto mended = repaired({{box(0, 0, 4, 4), {}}, {box(2, 0, 6, 4), {}}});
    REQUIRE(mended);
    CHECK(is_valid(*mended));
    CHECK(area_m2(*mended) == Approx(24.0));
}

TEST_CASE("what has no area is beyond repair") {
    CHECK_FALSE(repaired({}));
    CHECK_FALSE(repaired({{{{0, 0}, {1, 1}, {2, 2}, {0, 0}}, {}}}));
    CHECK_FALSE(repaired({{{{0, 0}, {1, 0}, {0, 0}}, {}}}));
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(repaired({{{{0, 0}, {nan, 0}, {1, 1}, {0, 0}}, {}}}));
}

TEST_CASE("a hole that is no ring is left out by the repair") {
    const auto mended = repaired({{box(0, 0, 4, 4), {{{1, 1}, {2, 2}, {1, 1}}}}});
    REQUIRE(mended);
    CHECK(area_m2(*mended) == Approx(16.0));
}
