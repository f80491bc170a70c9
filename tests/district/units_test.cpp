#include "analyzer/district/units.h"

#include <limits>
#include <type_traits>

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

template <class A, class B>
concept can_add = requires(A a, B b) { a + b; };
template <class A, class B>
concept can_compare = requires(A a, B b) { a < b; };

// Nothing of different dimension mixes, and no bare number slips in or out.
static_assert(can_add<Length, Length> && can_add<DriveTime, DriveTime>);
static_assert(!can_add<Length, Duration> && !can_add<Volume, Flow> && !can_add<Length, double>);
static_assert(!can_compare<Flow, HeldFlow> && !can_compare<Duration, DriveTime>);
static_assert(!std::is_convertible_v<double, Length> && !std::is_constructible_v<Length, double>);
static_assert(!std::is_convertible_v<Flow, double> && !std::is_convertible_v<int, DriveTime>);
static_assert(!can_add<HeldFlow, HeldFlow>);

// Small and regular: a double, nothing more.
static_assert(sizeof(Volume) == sizeof(double) && std::is_trivially_copyable_v<Volume>);
static_assert(sizeof(HeldFlow) == 4 && sizeof(DriveTime) == 4);
static_assert(Duration{} == minutes(0) && Weight{} == pounds(0));

// All of it works at compile time.
static_assert(gpm(250) * minutes(120) == gallons(30'000));
static_assert(held(gpm(502.19)) == tenths_of_gpm(5021));

}  // namespace

TEST_CASE("factors between units are the exact ones") {
    // International foot and mile of 1959; avoirdupois pound 0.45359237 kg; short ton 2,000 lb.
    CHECK(in_metres(feet(1)) == 0.3048);
    CHECK(in_metres(miles(1)) == 1609.344);
    CHECK(in_feet(miles(1)) == Approx(5280).epsilon(1e-15));
    CHECK(in_pounds(short_tons(23.5)) == 47'000);
    CHECK(in_pounds(tonnes(0.45359237)) == Approx(1000).epsilon(1e-15));
    CHECK(in_minutes(seconds(90)) == 1.5);
    CHECK(in_seconds(minutes(1.5)) == 90);
}

TEST_CASE("what is built from a unit reads back in that unit") {
    for (const double value : {0.0, 0.1, 1.0 / 3.0, 7.25, 1234.5678, -40.0, 1e9}) {
        CAPTURE(value);
        CHECK(in_metres(metres(value)) == value);
        CHECK(in_feet(feet(value)) == Approx(value).epsilon(1e-15));
        CHECK(in_miles(miles(value)) == Approx(value).epsilon(1e-15));
        CHECK(in_minutes(minutes(value)) == value);
        CHECK(in_seconds(seconds(value)) == Approx(value).epsilon(1e-15));
        CHECK(in_gallons(gallons(value)) == value);
        CHECK(in_gpm(gpm(value)) == value);
        CHECK(in_mph(mph(value)) == value);
        CHECK(in_pounds(pounds(value)) == value);
    }
}

TEST_CASE("quantities add, scale and compare like numbers") {
    Length length = feet(100);
    length += feet(50);
    length -= feet(30);
    CHECK(in_feet(length) == Approx(120));
    CHECK(in_feet(2.0 * length) == Approx(240));
    CHECK(in_feet(length * 0.5) == Approx(60));
    CHECK(in_feet(length / 4.0) == Approx(30));
    CHECK(length / feet(60) == Approx(2));
    CHECK(in_feet(-length) == Approx(-120));
    CHECK(feet(99) < feet(100));
    CHECK(metres(1) > feet(3));
}

TEST_CASE("flow, volume and time turn into each other") {
    CHECK(gallons(2500) / minutes(10) == gpm(250));
    CHECK(gallons(2500) / gpm(1000) == minutes(2.5));
    CHECK(minutes(2.5) * gpm(1000) == gallons(2500));
    CHECK(in_minutes(miles(2.1) / mph(30)) == Approx(4.2));
    CHECK(in_minutes(feet(5280) / mph(60)) == Approx(1));
}

TEST_CASE("drive times are whole tenths of a second and no way stays no way") {
    CHECK(in_minutes(duration_of(tenths_of_second(600))) == 1.0);
    CHECK(tenths_of_second(30) + tenths_of_second(12) == tenths_of_second(42));
    CHECK(no_time + tenths_of_second(1) == no_time);
    CHECK(tenths_of_second(1) + no_time == no_time);
    CHECK(no_time + no_time == no_time);
    CHECK_FALSE(reachable(no_time));
    CHECK(reachable(tenths_of_second(0)));
    CHECK(no_time > tenths_of_second(std::numeric_limits<std::int32_t>::max() - 1));
}

TEST_CASE("held flows are rounded down to tenths but for the last bits") {
    CHECK(held(gpm(0)) == tenths_of_gpm(0));
    CHECK(held(gpm(0.09999)) == tenths_of_gpm(0));
    CHECK(held(gpm(0.3)) == tenths_of_gpm(3));  // 0.3 x 10 may fall short of 3
    CHECK(held(gpm(80.0 - 1e-12)) == tenths_of_gpm(800));
    CHECK(held(gpm(502.19)) == tenths_of_gpm(5021));
    CHECK(held(gallons(1) / minutes(0)) == tenths_of_gpm(INT32_MAX));
    CHECK(held(gallons(0) / minutes(0)) == tenths_of_gpm(0));
    CHECK(held(gallons(-1) / minutes(0)) == tenths_of_gpm(0));
    for (std::int32_t tenths = 0; tenths <= 20'000; ++tenths) {
        const HeldFlow flow = tenths_of_gpm(tenths);
        REQUIRE(held(flow_of(flow)) == flow);
        REQUIRE(in_tenths(flow) == tenths);
    }
}
