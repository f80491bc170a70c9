#include "analyzer/hydraulics/suction_head.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::hydraulics;

TEST_CASE("the air thins as the standard atmosphere says", "[unit]") {
    // US Standard Atmosphere 1976, ft of water; 12.228 psia at 5,000 ft.
    const auto [altitude, head] = GENERATE(table<double, double>(
        {{0, 33.96}, {1000, 32.75}, {2000, 31.58}, {5000, 28.26}, {8000, 25.22}, {10000, 23.35}}));
    CHECK(in_feet(atmospheric_head(feet(altitude))) == Approx(head).margin(0.015));
}

TEST_CASE("air above its range pushes nothing", "[unit]") {
    CHECK(atmospheric_head(feet(200000)) == feet(0));
}

TEST_CASE("warm water boils sooner", "[unit]") {
    // 76 F: 0.4443 psia as stored in a published table (within 0.001); the others by Magnus.
    const auto [fahrenheit, psia] = GENERATE(
        table<double, double>({{35, 0.100}, {60, 0.256}, {76, 0.4443}, {90, 0.697}, {100, 0.949}}));
    CHECK(in_feet(vapour_head(fahrenheit)) * psi_per_foot_of_water == Approx(psia).margin(0.001));
}

TEST_CASE("the attainable lift is two thirds of the air's push", "[unit]") {
    // NWCG, "3.5 Drafting Guidelines": 33.9 ft in theory, 22.5 attainable.
    CHECK(in_feet(atmospheric_head(feet(0))) == Approx(33.9).margin(0.1));
    CHECK(in_feet(atmospheric_head(feet(0))) * 2 / 3 == Approx(22.5).margin(0.2));
    CHECK(in_feet(practical_lift(feet(0))) == Approx(22.5).margin(0.6));
}

TEST_CASE("practical lifts are those of the published table", "[unit]") {
    // "Pumps - Suction Head vs. Altitude".
    const auto [altitude, lift] = GENERATE(table<double, double>({{0, 22},
                                                                  {1320, 21},
                                                                  {2640, 20},
                                                                  {3960, 18},
                                                                  {5280, 17},
                                                                  {6600, 16},
                                                                  {7920, 15},
                                                                  {10560, 14}}));
    CHECK(in_feet(practical_lift(feet(altitude))) == Approx(lift));
}

TEST_CASE("practical lift falls with height and has no jump", "[unit]") {
    for (double altitude = -500; altitude < 30000; altitude += 10) {
        const Length here = practical_lift(feet(altitude));
        const Length above = practical_lift(feet(altitude + 10));
        REQUIRE(above <= here);
        REQUIRE(here - above < feet(0.05));
        REQUIRE(above >= feet(0));
    }
}

TEST_CASE("planning limit, height and warm water: the least head counts", "[unit]") {
    CHECK(in_feet(suction_head_limit(feet(20), feet(0), 60)) == Approx(20));
    CHECK(in_feet(suction_head_limit(feet(20), feet(5280), 60)) == Approx(17));
    // 80 F: 0.506 psia against 0.256 at 60 F, x 2.31 = 0.58 ft less.
    CHECK(in_feet(suction_head_limit(feet(20), feet(5280), 80)) == Approx(16.42).margin(0.01));
    CHECK(suction_head_limit(feet(20), feet(90000), 200) == feet(0));
}
