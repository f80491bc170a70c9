#include "analyzer/hydraulics/hose.h"

#include <catch2/catch.hpp>

#include "analyzer/hydraulics/portable_tank.h"

using namespace farwater;
using namespace farwater::hydraulics;

namespace {

// What uses up so much pressure in friction, level.
double gpm_by_loss(HoseSize size, double length_ft, double loss_psi) {
    return in_gpm(supply_line_flow(size, feet(length_ft), feet(0), loss_psi + 20.0, 20.0));
}

}  // namespace

TEST_CASE("friction reproduces the published worked examples", "[unit]") {
    // Source: "3-8 Calculating Friction Loss In Hose Lays" (Rohnert Park training record).
    CHECK(gpm_by_loss(HoseSize::in_2_5, 100, 8.0) == Approx(200));
    CHECK(gpm_by_loss(HoseSize::in_2_5, 300, 6.0) == Approx(100));
    CHECK(gpm_by_loss(HoseSize::in_2_5, 400, 32.0) == Approx(200));
    CHECK(gpm_by_loss(HoseSize::in_2_5, 200, 36.0) == Approx(300));
}

TEST_CASE("large hose loses what the same formula gives", "[unit]") {
    CHECK(gpm_by_loss(HoseSize::in_5, 1000, 80.0) == Approx(1000));
    CHECK(gpm_by_loss(HoseSize::in_4, 1000, 200.0) == Approx(1000));
}

TEST_CASE("a supply line carries the relay table's flow at its longest length", "[unit]") {
    // Basis: "Relay Pumping Operations" (IFSTA outline) p. 3: 20 psi residual, 185 psi for 4- and
    // 5-in, 200 psi for 2 1/2- and 3-in; lengths follow from FL.
    CHECK(in_gpm(supply_line_flow(HoseSize::in_4, feet(3300), feet(0), 185, 20)) == Approx(500));
    CHECK(in_gpm(supply_line_flow(HoseSize::in_5, feet(2062.5), feet(0), 185, 20)) == Approx(1000));
    CHECK(in_gpm(supply_line_flow(HoseSize::in_3, feet(900), feet(0), 200, 20)) == Approx(500));
    CHECK(in_gpm(supply_line_flow(HoseSize::in_2_5, feet(1440), feet(0), 200, 20)) == Approx(250));
}

TEST_CASE("rise takes pressure and a fall gives none", "[unit]") {
    const Flow level = supply_line_flow(HoseSize::in_4, feet(1400), feet(0), 185, 20);
    const Flow uphill = supply_line_flow(HoseSize::in_4, feet(1400), feet(60), 185, 20);
    CHECK(uphill < level);
    CHECK(in_gpm(uphill) ==
          Approx(704).epsilon(0.002));  // 165 - 60 x 0.4335 = 138.99 psi over 14 x 0.2
    CHECK(supply_line_flow(HoseSize::in_4, feet(1400), feet(-60), 185, 20) == level);
    CHECK(supply_line_flow(HoseSize::in_4, feet(1400), feet(400), 185, 20) == gpm(0));
}

TEST_CASE("a line of no length is capped, not infinite", "[unit]") {
    CHECK(supply_line_flow(HoseSize::in_2_5, feet(0), feet(0), 185, 20) == gpm(10000));
}

TEST_CASE("a 9 by 15 ft portable tank of 2,500 gal gives 2,332 above a 2-in heel", "[unit]") {
    // Common practice, no source; depth 29.7 in = 2,500 / 7.4805 / 135 ft.
    CHECK(in_gallons(usable_of_portable_tank(gallons(2500), feet(29.7 / 12), feet(2.0 / 12),
                                             0.0)) == Approx(2331.6).margin(0.1));
    CHECK(usable_of_portable_tank(gallons(2500), feet(1), feet(2), 0.0) == gallons(0));
}

TEST_CASE("a portable tank on 3 percent of grade holds 9 percent less, never less than nothing",
          "[unit]") {
    // 3 % per 1 % of grade: common practice, no source. 2,331.6 - 0.09 x 2,500.
    const auto on_slope = [](double loss) {
        return in_gallons(
            usable_of_portable_tank(gallons(2500), feet(29.7 / 12), feet(2.0 / 12), loss));
    };
    CHECK(on_slope(0.09) == Approx(2106.6).margin(0.1));
    CHECK(on_slope(0.95) == 0.0);
}
