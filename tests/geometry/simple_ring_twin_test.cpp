#include <cmath>
#include <limits>
#include <random>

#include <catch2/catch.hpp>
#include <geos_c.h>

#include "analyzer/geometry/polygon.h"

using namespace farwater;

namespace {

// What GEOS says of the ring as a polygon.
bool is_valid_by_geos(const Polyline& ring) {
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSCoordSequence* vertices = GEOSCoordSeq_copyFromBuffer_r(
        geos, &ring.front().x, static_cast<unsigned>(ring.size()), 0, 0);
    GEOSGeometry* line = GEOSGeom_createLinearRing_r(geos, vertices);
    GEOSGeometry* polygon =
        line == nullptr ? nullptr : GEOSGeom_createPolygon_r(geos, line, nullptr, 0);
    const bool valid = polygon != nullptr && GEOSisValid_r(geos, polygon) == 1;
    GEOSGeom_destroy_r(geos, polygon);
    GEOS_finish_r(geos);
    return valid;
}

// Coordinates of a coarse grid, so that touching, overlapping and repeated sides are frequent.
Polyline random_ring(std::mt19937& random, std::size_t corners, int steps) {
    Polyline ring;
    for (std::size_t i = 0; i < corners; ++i) {
        ring.push_back({static_cast<double>(random() % static_cast<unsigned>(steps)),
                        static_cast<double>(random() % static_cast<unsigned>(steps))});
    }
    ring.push_back(ring.front());
    return ring;
}

// A ring round a centre, with one vertex moved to anywhere: often simple, often not.
Polyline spoilt_star(std::mt19937& random, std::size_t corners) {
    std::uniform_real_distribution<double> radius(5.0, 10.0);
    std::uniform_real_distribution<double> anywhere(-10.0, 10.0);
    Polyline ring;
    for (std::size_t i = 0; i < corners; ++i) {
        const double angle =
            6.283185307179586 * static_cast<double>(i) / static_cast<double>(corners);
        const double r = radius(random);
        ring.push_back({700000.0 + r * std::cos(angle), 4770000.0 + r * std::sin(angle)});
    }
    if (random() % 2 == 0) {
        ring[random() % corners] = {700000.0 + anywhere(random), 4770000.0 + anywhere(random)};
    }
    ring.push_back(ring.front());
    return ring;
}

}  // namespace

TEST_CASE("a ring that is certainly simple is valid by GEOS") {
    const unsigned seed = 90125;
    CAPTURE(seed);
    std::mt19937 random(seed);
    int certain = 0;
    for (int round = 0; round < 40000; ++round) {
        const std::size_t corners = 3 + random() % 7;
        const Polyline ring = random_ring(random, corners, 3 + static_cast<int>(random() % 6));
        CAPTURE(round);
        const bool quick = certainly_simple(ring);
        certain += quick ? 1 : 0;
        REQUIRE((!quick || is_valid_by_geos(ring)));
    }
    CHECK(certain > 1000);
}

TEST_CASE("a ring without close calls gets the quick answer when GEOS finds it valid") {
    const unsigned seed = 5150;
    CAPTURE(seed);
    std::mt19937 random(seed);
    int valid = 0;
    for (int round = 0; round < 5000; ++round) {
        const Polyline ring = spoilt_star(random, 4 + random() % 30);
        CAPTURE(round);
        const bool by_geos = is_valid_by_geos(ring);
        valid += by_geos ? 1 : 0;
        REQUIRE(certainly_simple(ring) == by_geos);
    }
    CHECK(valid > 2000);
    CHECK(valid < 4900);
}

TEST_CASE("rings that are open, short, long or not finite get no quick answer") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(certainly_simple({}));
    CHECK_FALSE(certainly_simple({{0, 0}, {1, 0}, {0, 0}}));
    CHECK_FALSE(certainly_simple({{0, 0}, {1, 0}, {1, 1}, {0, 1}}));
    CHECK_FALSE(certainly_simple({{0, 0}, {nan, 0}, {1, 1}, {0, 0}}));
    CHECK(certainly_simple({{0, 0}, {1, 0}, {1, 1}, {0, 0}}));
    CHECK(certainly_simple({{0, 0}, {1, 0}, {2, 0}, {1, 1}, {0, 0}}));
}
