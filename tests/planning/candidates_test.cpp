// Why a place is left out.
#include "analyzer/planning/candidates.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::planning;

namespace {

// A road that stands so many feet above the only mapped water.
std::string why_left_out(double feet_above) {
    District district;
    district.assumptions.most_lift = feet(15.0);
    district.roads.emplace_back();
    district.mapped_water.push_back({.name = "Deep Cut", .area_m2 = 40000.0});
    RoadNearWater way;
    way.road = RoadIndex(0);
    way.apart = feet(20.0);
    way.road_height = feet(feet_above);
    way.water_height = feet(0.0);
    const Candidates found = find_candidates(district, {}, {.near_water = std::span(&way, 1)});
    return found.left_out.empty() ? std::string() : found.left_out.front().reason;
}

}  // namespace

TEST_CASE("water that cannot be lifted is left out for its lift, not for want of gallons") {
    CHECK(why_left_out(14.0).starts_with("lies deeper below the pump than may be lifted"));
    CHECK(why_left_out(14.0).ends_with(" ft)"));
    CHECK(why_left_out(3.0).empty());
}
