#include "analyzer/hydraulics/suction.h"

#include <catch2/catch.hpp>

#include "analyzer/hydraulics/suction_head.h"

using namespace farwater;
using namespace farwater::hydraulics;

namespace {

SuctionPipe plastic(double feet_long, double bore_in) {
    return {feet(feet_long), inches(bore_in), roughness_of(PipeMaterial::plastic)};
}

// Strainer and standpipe of the NRCS form: 4.8 ft at 500 gpm.
SuctionLine dry_hydrant(double pipe_and_fittings_ft, double bore_in) {
    return {plastic(pipe_and_fittings_ft, bore_in), plastic(20, 6), feet(4.8)};
}

// Total head as the NRCS form adds it up: no hard suction, no velocity head.
double form_head(double lift_ft, double equivalent_ft, double bore_in, double flow) {
    return lift_ft + 1.92e-5 * flow * flow +
           in_feet(manning_loss(plastic(equivalent_ft, bore_in), gpm(flow)));
}

}  // namespace

TEST_CASE("Manning with n = 0.010 makes the NRCS form's table", "[unit]") {
    // NRCS form NE-ENG-76 "Dry Hydrant Design", k in ft per 100 ft; 6 in within 0.5 %.
    struct Row {
        double bore, flow, k;
    };
    const auto row = GENERATE(Row{6, 250, 0.5852}, Row{6, 500, 2.3408}, Row{6, 750, 5.267},
                              Row{8, 250, 0.1257}, Row{8, 500, 0.5027}, Row{8, 750, 1.131},
                              Row{10, 250, 0.0382}, Row{10, 500, 0.1530}, Row{10, 750, 0.344},
                              Row{12, 250, 0.0145}, Row{12, 500, 0.0578}, Row{12, 750, 0.130});
    CHECK(in_feet(manning_loss(plastic(100, row.bore), gpm(row.flow))) ==
          Approx(row.k).epsilon(0.005));
}

TEST_CASE("Hazen and Williams give the published losses", "[unit]") {
    // 200 gpm, 3.048 in, C 140: 9 ft per 100 ft (general pages); C 150, 6.065 in: computed with the
    // other printed exponents, so within 2 %.
    const SuctionPipe small{feet(100), inches(3.048), {0.010, 140}};
    CHECK(in_feet(hazen_williams_loss(small, gpm(200))) == Approx(9.0).epsilon(0.02));
    const auto [flow, loss] =
        GENERATE(table<double, double>({{250, 0.421}, {500, 1.521}, {750, 3.22}, {1000, 5.49}}));
    CHECK(in_feet(hazen_williams_loss(plastic(100, 6.065), gpm(flow))) ==
          Approx(loss).epsilon(0.02));
}

TEST_CASE("the form is harder on 6-in pipe than Hazen and Williams", "[unit]") {
    // 750 gpm, 100 ft of 6 in: form 5.27, C 150 3.34 (computed).
    CHECK(in_feet(manning_loss(plastic(100, 6), gpm(750))) == Approx(5.27).margin(0.03));
    CHECK(in_feet(hazen_williams_loss(plastic(100, 6), gpm(750))) == Approx(3.34).margin(0.02));
}

TEST_CASE("strainer and standpipe lose the form's figures", "[unit]") {
    // NRCS form NE-ENG-76: 1.2, 4.8 and 10.8 ft at 250, 500 and 750 gpm.
    SuctionLine entrance{plastic(0, 6), plastic(0, 6), feet(4.8)};
    entrance.hose.diameter = feet(100);  // no velocity head to speak of
    const auto [flow, loss] =
        GENERATE(table<double, double>({{250, 1.2}, {500, 4.8}, {750, 10.8}}));
    CHECK(in_feet(suction_loss(entrance, gpm(flow), SuctionFriction::conservative)) ==
          Approx(loss).margin(1e-6));
}

TEST_CASE("the form's total head judges its worked cases", "[unit]") {
    // Lift 10, 60 ft of pipe and two 90-degree elbows of 20 ft each; ok below 20 ft, refused
    // above 22.
    CHECK(form_head(10, 100, 6, 250) == Approx(11.79).margin(0.02));
    CHECK(form_head(10, 100, 6, 500) == Approx(17.14).margin(0.02));
    CHECK(form_head(10, 100, 6, 750) == Approx(26.07).margin(0.03));
    CHECK(form_head(10, 100, 8, 250) == Approx(11.33).margin(0.02));
    CHECK(form_head(10, 100, 8, 500) == Approx(15.30).margin(0.02));
    CHECK(form_head(10, 100, 8, 750) == Approx(21.93).margin(0.02));
}

TEST_CASE("the velocity head of 6 in is half a foot at 500 gpm and four times that at 1,000") {
    CHECK(in_feet(velocity_head(inches(6), gpm(500))) == Approx(0.50).margin(0.005));
    CHECK(in_feet(velocity_head(inches(6), gpm(1000))) == Approx(2.00).margin(0.01));
}

TEST_CASE("what the form's example can draw within 20 ft of head has a closed form", "[unit]") {
    // 6 in, 100 ft equivalent, lift 8: sqrt(12 / (1.92e-5 + k)) = 648.2 gpm with the form's k.
    SuctionLine line{plastic(100, 6), plastic(0, 6), feet(4.8)};
    line.hose.diameter = feet(100);
    const auto flow = suction_flow(line, feet(8), feet(20), SuctionFriction::manning);
    REQUIRE(flow);
    CHECK(in_gpm(*flow) == Approx(648.2).epsilon(0.002));
}

TEST_CASE("flows at 20 ft of head fall with the lift as computed before", "[unit]") {
    // 60 ft of pipe, 40 ft of fittings, C 150, 20 ft of hard suction, form strainer. Computed.
    struct Row {
        double lift, six, eight;
    };
    const auto row = GENERATE(Row{5, 722, 1173}, Row{8, 645, 1047}, Row{10, 588, 954},
                              Row{12, 524, 852}, Row{15, 412, 670}, Row{18, 258, 420});
    const auto flow = suction_flow(dry_hydrant(100, 6), feet(row.lift), feet(20),
                                   SuctionFriction::hazen_williams);
    REQUIRE(flow);
    CHECK(in_gpm(*flow) == Approx(row.six).epsilon(0.02));
}

TEST_CASE("the test pit's engine draws what its lift allows", "[unit]") {
    // 10 ft, 20 ft of 6 in, strainer 2 ft at 1,000 gpm, 24.9 ft of head: computed 1,666 gpm, which
    // is that of hose with C 130.
    const SuctionPipe hose{feet(20), inches(6), {0.010, 130}};
    const SuctionLine pit{plastic(0, 6), hose, feet(0.5)};
    const auto flow = suction_flow(pit, feet(10), feet(24.9), SuctionFriction::hazen_williams);
    REQUIRE(flow);
    CHECK(in_gpm(*flow) == Approx(1666).epsilon(0.002));
}

TEST_CASE("water that the lift alone keeps away cannot be drafted", "[unit]") {
    CHECK_FALSE(suction_flow(dry_hydrant(100, 6), feet(20), feet(20), SuctionFriction::manning));
    CHECK_FALSE(suction_flow(dry_hydrant(100, 6), feet(27), feet(20), SuctionFriction::manning));
    CHECK(suction_flow(dry_hydrant(100, 6), feet(19.9), feet(20), SuctionFriction::manning));
}

TEST_CASE("the conservative formula is never above either", "[unit]") {
    const auto lift = GENERATE(-5.0, 0.0, 7.0, 14.5);
    const auto bore = GENERATE(4.0, 6.0, 8.0, 12.0);
    const SuctionLine line = dry_hydrant(120, bore);
    const auto least = suction_flow(line, feet(lift), feet(20), SuctionFriction::conservative);
    CHECK(*least <= *suction_flow(line, feet(lift), feet(20), SuctionFriction::manning));
    CHECK(*least <= *suction_flow(line, feet(lift), feet(20), SuctionFriction::hazen_williams));
}
