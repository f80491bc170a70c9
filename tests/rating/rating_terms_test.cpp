// The terms of insurance rating as values, and what they make of hose and of one tanker.
#include "analyzer/rating/rating_terms.h"

#include <catch2/catch.hpp>

#include "tests/rating/built_in_terms.h"

using namespace farwater;
using namespace farwater::rating;

// Rating organisation, "Alternative Water Supplies" and "Minimum Criteria for Class 8 or Better";
// rating schedule, "Class 8B and Class 9 Protection"; Washington, "Tender Credit".
TEST_CASE("the minimum flow over the duration is what the sources say in gallons") {
    const auto water = [](const Terms& of) { return in_gallons(of.minimum * of.duration); };
    CHECK(water(schedule()) == Approx(30000));
    CHECK(water(built_in(RatingTerms::schedule_8b)) == Approx(4000));
    CHECK(water(built_in(RatingTerms::tender_credit)) == Approx(7500));
    // Muskoka Lakes, "Water Tanker Shuttle Accreditation": 950 L/min.
    CHECK(in_gpm(built_in(RatingTerms::shuttle_accreditation).minimum) ==
          Approx(950 / 3.785411784).epsilon(1e-4));
    CHECK(in_miles(built_in(RatingTerms::shuttle_accreditation).near) ==
          Approx(8000 / 1609.344).epsilon(1e-3));
}

TEST_CASE("the clock's start, the use of the travel rule and the aid that counts are explicit") {
    CHECK(schedule().clock == ClockStart::first_arrival);
    CHECK(built_in(RatingTerms::tender_credit).clock == ClockStart::parking_brake);
    CHECK(schedule().drive_rule == DriveRule::round_trip);
    CHECK(schedule().farthest_aid == Aid::automatic);
    CHECK(built_in(RatingTerms::tender_credit).farthest_aid == Aid::own);
}

// Rating schedule, "Class 8B and Class 9 Protection"; "Minimum Criteria for Class 8 or Better";
// Washington, "Tender Credit".
TEST_CASE("what is asked of the department as a whole is as its source tells") {
    const OfDepartment of_8b = built_in(RatingTerms::schedule_8b).department;
    CHECK(of_8b.share == Approx(0.85));
    CHECK(of_8b.responders == 6);
    CHECK(of_8b.training_hours == 24);
    CHECK(of_8b.alarm_points == 5);
    CHECK(of_8b.department_points == 20);
    CHECK(schedule().department.points_in_all == 20);
    CHECK(schedule().department.share == 0);
    CHECK(built_in(RatingTerms::tender_credit).department.people_at_flow == 4);
    CHECK(in_gpm(built_in(RatingTerms::schedule_8b).least_pump) == 750);
    CHECK(in_gpm(schedule().least_pump) == 750);
}

// Indian River County, document 6712 p. 122.
TEST_CASE("hose to a source is worth less with its length, and nothing beyond the last step") {
    const auto worth = [](double length) {
        return in_gpm(worth_of_hose(schedule(), feet(length)));
    };
    CHECK(worth(0) == 1000);
    CHECK(worth(300) == 1000);
    CHECK(worth(301) == 670);
    CHECK(worth(600) == 670);
    CHECK(worth(601) == 250);
    CHECK(worth(1000) == 250);
    CHECK(worth(1001) == 0);
}

// A step that is worth less than the minimum would never count, though it is within the hose.
TEST_CASE("in all terms the farthest hose that is credited carries the minimum flow") {
    for (std::size_t i = 0; i < words_of(RatingTerms{}).size(); ++i) {
        const Terms terms = built_in(static_cast<RatingTerms>(i));
        CAPTURE(word(static_cast<RatingTerms>(i)));
        REQUIRE_FALSE(terms.hose_credit.empty());
        CHECK(terms.hose_credit.back().worth >= terms.minimum);
        CHECK(terms.hose_credit.back().up_to >= terms.hose);
        CHECK(worth_of_hose(terms, terms.hose) >= terms.minimum);
    }
}

TEST_CASE("hose is worth nothing beyond the farthest hose, whatever the steps say") {
    Terms own = schedule();
    own.hose = feet(500);
    CHECK(in_gpm(worth_of_hose(own, feet(500))) == 670);
    CHECK(in_gpm(worth_of_hose(own, feet(501))) == 0);
}

// Rating organisation, "Response-Time Considerations": T = 0.65 + 1.7 D, 3.2 min for 1.5 mi and
// 4.9 min for 2.5 mi.
TEST_CASE("a drive on paper is counted once for the round trip or once for each leg") {
    Terms own = schedule();
    const auto drive = [&](double out, double back) {
        return in_minutes(drive_on_paper(own, miles(out), miles(back)));
    };
    CHECK(drive(1.5, 0) == Approx(3.2).margin(0.05));
    CHECK(drive(2.5, 0) == Approx(4.9).margin(0.05));
    CHECK(drive(1.5, 1.5) == Approx(5.75));
    own.drive_rule = DriveRule::each_leg;
    CHECK(drive(1.5, 1.5) == Approx(6.40));
}

// "Water Shuttle Operations" (IFSTA Pumping Apparatus Driver/Operator outline) pp. 12-13; study
// sheet "CDC - MWS Water Shuttle Ops".
TEST_CASE("a tanker on paper gives its tank less a tenth over its cycle") {
    const auto flow = [](double tank, double drive, double handling) {
        return in_gpm(
            tanker_on_paper(schedule(), gallons(tank), minutes(drive), minutes(handling)));
    };
    CHECK(flow(2500, in_minutes(drive_on_paper(schedule(), miles(1.5), miles(1.5))), 9) ==
          Approx(152.5).margin(0.05));
    CHECK(flow(3000, 12, 0) == Approx(225));
    CHECK(flow(5000, 10, 0) == Approx(450));
    CHECK(flow(5000, 0, 0) == 0);
}
