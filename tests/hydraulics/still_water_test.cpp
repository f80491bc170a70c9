#include "analyzer/hydraulics/still_water.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::hydraulics;

TEST_CASE("5 ft over the intake leave 1 ft where frost takes the surface", "[unit]") {
    // Idaho rating bureau, "Dry Hydrants": 2 ft above the suction point, 2 ft at the surface.
    CHECK(in_feet(usable_depth(feet(5), feet(2), feet(2))) == Approx(1));
    CHECK(in_feet(usable_depth(feet(5), feet(2), feet(0))) == Approx(3));
    CHECK(usable_depth(feet(3), feet(2), feet(2)) == feet(0));
}

TEST_CASE("a foot of water on 0.4 acre is 130,000 gal", "[unit]") {
    // 0.4 x 43,560 sq ft x 7.4805 gal per cubic foot.
    CHECK(in_gallons(volume_of(acres(0.4), feet(1))) == Approx(130340).margin(1));
}

TEST_CASE("a rate over two hours is the published volume", "[unit]") {
    // NFPA 1142 and rating schedule: 250 gpm x 2 h, NFPA 1710: 400 gpm x 2 h.
    CHECK(gpm(250) * minutes(120) == gallons(30000));
    CHECK(gpm(400) * minutes(120) == gallons(48000));
    CHECK(gpm(200) * minutes(20) == gallons(4000));
    CHECK(gpm(250) * minutes(30) == gallons(7500));
}
