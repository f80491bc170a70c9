// What a source gives, against each rule written down as it is read.
#include <catch2/catch.hpp>

#include "analyzer/supply/water_review.h"
#include "tests/supply/drawn_source.h"
#include "tests/support/slow_source.h"

using namespace farwater;
using namespace farwater::supply;

TEST_CASE("sources give what the rules say one by one", "[twin]") {
    Draw draw(20260531);
    int counted = 0;
    for (int i = 0; i < 4000; ++i) {
        District district = district_of(drawn_source(draw));
        district.suction_friction = static_cast<SuctionFriction>(i % 3);
        district.assumptions.altitude = feet(between(draw, 0, 9000));
        const WaterReview review = review_water(district);
        const slow::Giving expected = slow::giving(district, district.sources[0]);
        const bool hydrant = district.sources[0].kind == SourceKind::hydrant;
        CAPTURE(i, word(district.sources[0].kind), expected.into_any_pump, expected.gallons);
        if (review.counted.empty()) {
            const bool mapped = district.sources[0].standing == Standing::mapped;
            REQUIRE(
                (mapped || expected.into_any_pump <= 0.0 || (!hydrant && expected.gallons <= 0.0)));
            continue;
        }
        ++counted;
        const CountedSource& found = review.counted[0];
        REQUIRE(in_gpm(found.rate) == Approx(expected.into_any_pump).epsilon(1e-3).margin(1e-6));
        REQUIRE(found.pump_share == Approx(expected.pump_share));
        REQUIRE(found.usable.has_value() == (expected.gallons < 1e29));
        if (found.usable) {
            REQUIRE(in_gallons(*found.usable) == Approx(expected.gallons));
        }
    }
    CHECK(counted > 500);
}
