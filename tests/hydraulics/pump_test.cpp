#include "analyzer/hydraulics/pump.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::hydraulics;

TEST_CASE("a pump gives 100, 70 and 50 % of its rating at 150, 200 and 250 psi", "[unit]") {
    // "Relay Pumping Operations" (IFSTA outline) p. 3: 1,500 gpm gives 1,050 and 750.
    CHECK(1500 * pump_share_at_pressure(150) == Approx(1500));
    CHECK(1500 * pump_share_at_pressure(200) == Approx(1050));
    CHECK(1500 * pump_share_at_pressure(250) == Approx(750));
    CHECK(pump_share_at_pressure(20) == 1.0);
    CHECK(pump_share_at_pressure(400) == 0.0);
}

TEST_CASE("a pump gives 100, 70 and 60 % of its rating at 10, 15 and 20 ft of lift", "[unit]") {
    // "Chapter 11 Static Water Supply Sources" (course cards): 1,000, 700, 600 gpm.
    CHECK(1000 * pump_share_at_lift(feet(10), feet(2000)) == Approx(1000));
    CHECK(1000 * pump_share_at_lift(feet(15), feet(2000)) == Approx(700));
    CHECK(1000 * pump_share_at_lift(feet(20), feet(2000)) == Approx(600));
    CHECK(pump_share_at_lift(feet(-3), feet(2000)) == 1.0);
    CHECK(pump_share_at_lift(feet(80), feet(2000)) == 0.0);
}

// The air of the US Standard Atmosphere 1976 is 5.4 ft of water weaker at 7,000 ft than at the
// 2,000 that pumps are rated for, so that 10 ft of lift are like 15.4 (derived, no source).
TEST_CASE("high above the sea a lift is like a larger one", "[unit]") {
    CHECK(pump_share_at_lift(feet(10), feet(7000)) == Approx(0.69).margin(0.003));
    CHECK(pump_share_at_lift(feet(10), feet(10000)) == Approx(0.636).margin(0.003));
    CHECK(pump_share_at_lift(feet(10), feet(0)) == 1.0);
}

TEST_CASE("a pump's shares never rise with lift or pressure", "[unit]") {
    for (int i = 0; i < 600; ++i) {
        REQUIRE(pump_share_at_lift(feet(i / 10.0 + 0.1), feet(2000)) <=
                pump_share_at_lift(feet(i / 10.0), feet(2000)));
        REQUIRE(pump_share_at_pressure(i + 1.0) <= pump_share_at_pressure(i));
    }
}
