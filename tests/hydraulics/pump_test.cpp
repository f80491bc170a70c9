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
    CHECK(1000 * pump_share_at_lift(feet(10)) == Approx(1000));
    CHECK(1000 * pump_share_at_lift(feet(15)) == Approx(700));
    CHECK(1000 * pump_share_at_lift(feet(20)) == Approx(600));
    CHECK(pump_share_at_lift(feet(-3)) == 1.0);
    CHECK(pump_share_at_lift(feet(80)) == 0.0);
}

TEST_CASE("a pump's shares never rise with lift or pressure", "[unit]") {
    for (int i = 0; i < 600; ++i) {
        REQUIRE(pump_share_at_lift(feet(i / 10.0 + 0.1)) <= pump_share_at_lift(feet(i / 10.0)));
        REQUIRE(pump_share_at_pressure(i + 1.0) <= pump_share_at_pressure(i));
    }
}
