#include "routing/driving/travel_rule.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "routing/costs.h"

using namespace farwater;
using routing::TravelRule;

namespace {

std::int32_t millimetres(double way_miles) { return routing::millimetres(miles(way_miles)); }

constexpr TravelTime linear_models[] = {TravelTime::linear_per_leg,
                                        TravelTime::linear_per_round_trip};

}  // namespace

TEST_CASE("the linear rule has the published minutes") {
    // "Response-Time Considerations" of the rating organisation, to the nearest 0.1 minute.
    const auto tenths = [](double way) {
        return std::round(in_minutes(routing::linear_travel_time(miles(way))) * 10.0);
    };
    CHECK(tenths(1.5) == 32);
    CHECK(tenths(2.5) == 49);
    // "Modeling Resource Deployment" (secondary source): 4 minutes are about 2 miles, 9 about 5.
    CHECK(in_minutes(routing::linear_travel_time(miles(1.97))) == Approx(4).margin(0.01));
    CHECK(in_minutes(routing::linear_travel_time(miles(4.91))) == Approx(9).margin(0.01));
    // Annex example of NFPA 1231 and 1142 (from memory).
    CHECK(in_minutes(routing::linear_travel_time(miles(2.10))) == Approx(4.22));
    CHECK(in_minutes(routing::linear_travel_time(miles(1.80))) == Approx(3.71));
}

TEST_CASE("two legs of 1.5 miles are 6.40 minutes by the leg and 5.75 by the round trip") {
    // Computed; 5.75 is the time of the three-mile example of "Water Shuttle Operations" p. 13.
    const auto round_trip = [](TravelTime model) {
        const TravelRule rule(model);
        return in_tenths(rule.leg(millimetres(1.5)) + rule.leg(millimetres(1.5)));
    };
    CHECK(round_trip(TravelTime::linear_per_leg) == 3840);
    CHECK(round_trip(TravelTime::linear_per_round_trip) == 3450);
}

TEST_CASE("a response has all of the 0.65 minutes under both linear rules") {
    for (const TravelTime model : linear_models) {
        CHECK(in_tenths(TravelRule(model).response(0)) == 390);
        CHECK(in_tenths(TravelRule(model).response(millimetres(2.5))) == 390 + 2550);
        CHECK_FALSE(reachable(TravelRule(model).response(routing::no_way)));
        CHECK_FALSE(reachable(TravelRule(model).leg(routing::no_way)));
    }
}

TEST_CASE("times are rounded up, and a limit lets through exactly the ways that keep it") {
    for (const TravelTime model : linear_models) {
        const TravelRule rule(model);
        CHECK(in_tenths(rule.response(millimetres(2.5) + 5)) == 390 + 2551);
        for (std::int32_t limit = 391; limit < 40'000; limit += 977) {
            const std::int32_t most = rule.most_of_leg(limit);
            CHECK(in_tenths(rule.leg(most)) <= limit);
            CHECK(in_tenths(rule.leg(most + 1)) > limit);
            const std::int32_t farthest = rule.most_of_response(limit);
            CHECK(in_tenths(rule.response(farthest)) <= limit);
            CHECK(in_tenths(rule.response(farthest + 1)) > limit);
        }
        CHECK(rule.most_of_response(100) == 0);
    }
}

TEST_CASE("a delay before the drive comes back as it went in, and adds to the drive") {
    for (const TravelTime model :
         {TravelTime::road_speeds, TravelTime::linear_per_leg, TravelTime::linear_per_round_trip}) {
        const TravelRule rule(model);
        const std::int32_t standing = in_tenths(rule.response(0));
        for (std::int32_t delay = 0; delay < 20'000; delay += 7) {
            CHECK(in_tenths(rule.response(rule.cost_of(tenths_of_second(delay)))) ==
                  delay + standing);
        }
        CHECK(rule.cost_of(no_time) == routing::no_way);
    }
}

TEST_CASE("by road speeds costs are tenths of a second as they stand") {
    const TravelRule rule(TravelTime::road_speeds);
    CHECK(in_tenths(rule.leg(1234)) == 1234);
    CHECK(in_tenths(rule.response(1234)) == 1234);
    CHECK(rule.most_of_leg(18'000) == 18'000);
    CHECK_FALSE(reachable(rule.leg(routing::no_way)));
}
