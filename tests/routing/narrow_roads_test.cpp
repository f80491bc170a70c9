#include "routing/narrow_roads.h"

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

Road road_of_width(std::uint32_t row, std::optional<Length> width) {
    Road road;
    road.row = row;
    road.line = {{0.0, 0.0}, {1000.0, 0.0}};
    road.width = width;
    return road;
}

Profile wide(std::optional<Length> width) {
    Profile profile;
    profile.width = width;
    return profile;
}

}  // namespace

TEST_CASE("roads too narrow for every vehicle are one problem, with the first and how many") {
    District district;
    district.roads = {road_of_width(0, {}), road_of_width(1, feet(8)), road_of_width(2, feet(8.5)),
                      road_of_width(3, feet(6)), road_of_width(4, feet(9))};
    const std::vector<Profile> profiles{wide(feet(9)), wide(feet(8.5))};
    const auto problems = routing::narrow_roads(district, profiles);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].id == ProblemId::road_too_narrow);
    CHECK(problems[0].record == "row 2");
    CHECK(problems[0].detail ==
          "8.0 ft, the narrowest unit takes 8.5 ft; 2 of 5 roads, 6562 ft in all");
    CHECK(routing::narrow_roads(district, {}).empty());
    CHECK(routing::narrow_roads(district, std::vector<Profile>{wide({}), wide(feet(9))}).empty());
    district.roads = {district.roads[0], district.roads[2]};
    CHECK(routing::narrow_roads(district, profiles).empty());
}
