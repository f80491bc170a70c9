#include "analyzer/demand/needed_flow.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::demand;

TEST_CASE("a parcel's own need and duration go before the district's default", "[unit]") {
    const Assumptions assumptions;
    Parcel parcel;
    parcel.needed = gpm(1250);
    parcel.duration = minutes(180);
    const auto need = need_of(parcel, assumptions);
    REQUIRE(need);
    CHECK(need->flow == tenths_of_gpm(12500));
    CHECK(need->duration == minutes(180));
    CHECK(need->evidence == Evidence::declared);
}

TEST_CASE("a parcel without a need takes the default and says that it is assumed", "[unit]") {
    const auto need = need_of(Parcel{}, Assumptions{});
    REQUIRE(need);
    CHECK(need->flow == tenths_of_gpm(5000));
    CHECK(need->duration == minutes(120));
    CHECK(need->evidence == Evidence::assumed);
}

TEST_CASE("a parcel without a building needs nothing", "[unit]") {
    Parcel parcel;
    parcel.improved = false;
    parcel.needed = gpm(500);
    CHECK_FALSE(need_of(parcel, Assumptions{}));
}

TEST_CASE("a target always needs water", "[unit]") {
    CHECK(need_of(Target{}, Assumptions{}).flow == tenths_of_gpm(5000));
}

TEST_CASE("a default that the district set itself is its word, not an assumption", "[unit]") {
    Assumptions assumptions;
    assumptions.given = {"default_needed_gpm"};
    CHECK(need_of(Parcel{}, assumptions)->evidence == Evidence::declared);
}
