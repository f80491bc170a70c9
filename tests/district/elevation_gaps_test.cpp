#include "analyzer/district/elevation_gaps.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "analyzer/district/district.h"

using namespace farwater;

namespace {

// Heights of a square kilometre, level, from (0, 1000) to (1000, 0).
District square_kilometre() {
    District district;
    district.elevation = {{0, 1000}, 100.0, 11, 11, std::vector<float>(121, 5.0F)};
    return district;
}

void add_road(District& district, Polyline line) {
    district.roads.emplace_back().line = std::move(line);
}

}  // namespace

TEST_CASE("a district without elevation has no gaps in it") {
    District district;
    add_road(district, {{0, 0}, {100, 0}});
    CHECK_FALSE(elevation_gaps(district).matter());
}

TEST_CASE("the share of the roads without heights is that of their length") {
    District district = square_kilometre();
    add_road(district, {{0, 500}, {1000, 500}});
    CHECK_FALSE(elevation_gaps(district).matter());
    // 3,000 m, of which 2,000 lie beyond the heights; one stretch of 100 ft or less reaches across.
    add_road(district, {{0, 200}, {3000, 200}});
    CHECK(elevation_gaps(district).road_share == Approx(2000.0 / 4000.0).margin(31.0 / 4000.0));
}

TEST_CASE("a hole of the heights between a road's two ends is found, but under a bridge") {
    District district = square_kilometre();
    add_road(district, {{0, 500}, {1000, 500}});
    district.elevation.metres[5 * 11 + 5] = std::nanf("");  // at (500, 500)
    // The four cells beside it give no height: 400 to 600.
    CHECK(elevation_gaps(district).road_share == Approx(0.2).margin(0.07));
    district.roads[0].bridge = true;
    CHECK_FALSE(elevation_gaps(district).matter());
}

TEST_CASE("houses and sources without a height are counted") {
    District district = square_kilometre();
    district.parcels.resize(3);
    district.parcels[0].house = {500, 500};
    district.parcels[1].house = {1500, 500};
    district.parcels[2].house = {500, -1};
    district.sources.resize(1);
    district.sources[0].place = {-5, 5};
    const ElevationGaps gaps = elevation_gaps(district);
    CHECK(gaps.parcels == 2);
    CHECK(gaps.sources == 1);
    CHECK(gaps.road_share == 0.0);
    CHECK(gaps.matter());
}
