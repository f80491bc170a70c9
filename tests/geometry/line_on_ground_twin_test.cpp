// How much of a line lies on some ground, against a walk in small steps.
#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/geometry/line_on_ground.h"
#include "analyzer/geometry/polygon.h"

using namespace farwater;

namespace {

Polyline square(double x, double y, double side) {
    return {{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}};
}

// A star round (0, 0): every ray meets its border once.
Polyline star(std::mt19937& random, double most) {
    std::uniform_real_distribution<double> radius(0.2 * most, most);
    Polyline ring;
    for (int corner = 0; corner < 11; ++corner) {
        const double angle = 2.0 * M_PI * corner / 11.0;
        const double r = radius(random);
        ring.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    ring.push_back(ring.front());
    return ring;
}

double by_steps(const MultiPolygon& shape, Point a, Point b, int steps) {
    int inside = 0;
    for (int i = 0; i < steps; ++i) {
        const double on = (i + 0.5) / steps;
        inside += contains(shape, {a.x + on * (b.x - a.x), a.y + on * (b.y - a.y)}) ? 1 : 0;
    }
    return std::sqrt(distance_squared(a, b)) * inside / steps;
}

}  // namespace

TEST_CASE("a line lies on the ground that it crosses, not in its holes, nor along its border",
          "[unit]") {
    const MultiPolygon ground{{square(0, 0, 100), {square(40, 40, 20)}}};
    CHECK(metres_on_ground(ground, {-50, 50}, {150, 50}) == Approx(80.0));
    CHECK(metres_on_ground(ground, {50, 50}, {50, 90}) == Approx(30.0));
    CHECK(metres_on_ground(ground, {10, 10}, {13, 14}) == Approx(5.0));
    CHECK(metres_on_ground(ground, {-50, -1}, {150, -1}) == 0.0);
    CHECK(metres_on_ground(ground, {0, 0}, {0, -40}) == 0.0);
    CHECK(metres_on_ground(ground, {50, 5}, {50, 5}) == 0.0);
    CHECK(metres_on_ground({}, {0, 0}, {1, 1}) == 0.0);
    // Neighbours share what a border parts, and no more.
    const MultiPolygon beside{{square(100, 0, 100), {}}};
    CHECK(metres_on_ground(ground, {90, 10}, {120, 10}) == Approx(10.0));
    CHECK(metres_on_ground(beside, {90, 10}, {120, 10}) == Approx(20.0));
}

TEST_CASE("metres of a line on drawn ground are those of a walk in small steps", "[twin]") {
    const unsigned seed = 71;
    CAPTURE(seed);
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> place(-120.0, 120.0);
    for (int round = 0; round < 300; ++round) {
        const MultiPolygon ground{{star(random, 100.0), {star(random, 15.0)}}};
        const Point a{place(random), place(random)};
        const Point b{place(random), place(random)};
        CHECK(metres_on_ground(ground, a, b) == Approx(by_steps(ground, a, b, 4000)).margin(0.5));
    }
}
