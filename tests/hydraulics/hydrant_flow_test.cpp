#include "analyzer/hydraulics/hydrant_flow.h"

#include <cmath>

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::hydraulics;

TEST_CASE("a flow test is carried on to 20 psi by the 0.54 rule", "[unit]") {
    // NFPA 291 and AWWA M17 (from memory): Q (Ps - 20)^0.54 / (Ps - Pr)^0.54; by hand
    // 1,000 x (44 / 16)^0.54 = 1,000 x e^(0.54 x 1.011601) = 1,726.8.
    const auto flow = flow_at_residual({64, 48, gpm(1000)}, 20);
    REQUIRE(flow);
    CHECK(in_gpm(*flow) == Approx(1726.8).margin(0.1));
    // At the residual of the test itself nothing is carried on.
    CHECK(in_gpm(*flow_at_residual({64, 48, gpm(1000)}, 48)) == Approx(1000));
}

TEST_CASE("a test that went below 20 psi counts for less than it flowed", "[unit]") {
    const auto flow = flow_at_residual({60, 10, gpm(900)}, 20);
    REQUIRE(flow);
    CHECK(in_gpm(*flow) == Approx(900 * 0.88648).margin(0.5));  // (40 / 50)^0.54
}

TEST_CASE("a main that stands at 20 psi or lower gives nothing", "[unit]") {
    CHECK(flow_at_residual({20, 12, gpm(200)}, 20) == gpm(0));
    CHECK(flow_at_residual({15, 2, gpm(200)}, 20) == gpm(0));
}

TEST_CASE("a test that cannot be right gives no flow", "[unit]") {
    CHECK_FALSE(flow_at_residual({50, 50, gpm(500)}, 20));
    CHECK_FALSE(flow_at_residual({50, 60, gpm(500)}, 20));
    CHECK_FALSE(flow_at_residual({50, -1, gpm(500)}, 20));
    CHECK_FALSE(flow_at_residual({50, 40, gpm(0)}, 20));
}

TEST_CASE("a pitot reading is a flow", "[unit]") {
    // 29.84 c d^2 sqrt(p): 2 1/2-in outlet, 0.9, 16 psi = 671.4 (discharge tables print 671;
    // memory).
    CHECK(in_gpm(pitot_flow(16, inches(2.5), 0.9)) == Approx(671.4));
    CHECK(pitot_flow(0, inches(2.5), 0.9) == gpm(0));
    CHECK(pitot_flow(-4, inches(2.5), 0.9) == gpm(0));
}

// Shares of NFPA 291's table for pumper outlets, from memory; one in between is a straight line.
TEST_CASE("a pumper outlet's stream has voids", "[unit]") {
    const auto share = [](double psi) {
        const double full = 29.84 * 0.9 * 4.5 * 4.5 * std::sqrt(psi);
        return in_gpm(pitot_flow(psi, inches(4.5), 0.9)) / full;
    };
    CHECK(share(1) == Approx(0.97));
    CHECK(share(2) == Approx(0.97));
    CHECK(share(2.5) == Approx(0.945));
    CHECK(share(5) == Approx(0.86));
    CHECK(share(7) == Approx(0.83));
    CHECK(share(30) == Approx(0.83));
    CHECK(in_gpm(pitot_flow(10, inches(4.5), 0.9)) == Approx(1427.4).margin(0.1));
}

// NFPA 291 4.3.6 (as quoted by public guides to flow tests): a quarter of the static pressure.
TEST_CASE("a test is carried on where a quarter of the pressure fell", "[unit]") {
    CHECK(drops_enough({64, 48, gpm(1000)}));
    CHECK_FALSE(drops_enough({64, 49, gpm(1000)}));
    CHECK_FALSE(drops_enough({80, 69, gpm(900)}));
}

TEST_CASE("a colour class counts with its low end", "[unit]") {
    // NFPA 291 (from memory): blue from 1,500, green from 1,000, orange from 500, red below 500.
    CHECK(least_of_class(HydrantColour::blue) == gpm(1500));
    CHECK(least_of_class(HydrantColour::green) == gpm(1000));
    CHECK(least_of_class(HydrantColour::orange) == gpm(500));
    CHECK(least_of_class(HydrantColour::red) == gpm(0));
}
