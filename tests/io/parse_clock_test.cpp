// Times of day as records systems write them.
#include "io/records/parse_clock.h"

#include <catch2/catch.hpp>

using namespace farwater;
using io::clock_between;
using io::parse_clock;

namespace {

double minutes_in(const char* text) {
    const auto time = parse_clock(text);
    return time ? in_minutes(*time) : -1.0;
}

}  // namespace

TEST_CASE("a time of day is read with and without seconds, day, half and zone", "[unit]") {
    CHECK(minutes_in("14:05") == 845.0);
    CHECK(minutes_in("0:00") == 0.0);
    CHECK(minutes_in("23:59:59") == Approx(1439.0 + 59.0 / 60.0));
    CHECK(minutes_in("2:05 PM") == 845.0);
    CHECK(minutes_in("2:05:30pm") == 845.5);
    CHECK(minutes_in("12:10 a.m.") == 10.0);
    CHECK(minutes_in("12:10 PM") == 730.0);
    CHECK(minutes_in("2026-03-04 14:05") == 845.0);
    CHECK(minutes_in("2026-03-04T14:05:30.250Z") == 845.5);
    CHECK(minutes_in("2026-03-04T14:05:30-05:00") == 845.5);
    CHECK(minutes_in("3/4/2026 2:05:00 PM") == 845.0);
}

TEST_CASE("what can be something else is no time of day", "[unit]") {
    for (const char* text : {"", "1405", "14.05", "24:00", "14:60", "14:05:60", "13:05 PM",
                             "0:05 AM", "half past two", "2026-03-04", "14:05 about", "x14:05"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_clock(text));
    }
}

TEST_CASE("from one time of day to the next over midnight, but not to the other day", "[unit]") {
    const auto between = [](const char* from, const char* to) {
        const auto time = clock_between(*parse_clock(from), *parse_clock(to), minutes(120));
        return time ? in_minutes(*time) : -1.0;
    };
    CHECK(between("14:05", "14:11:30") == Approx(6.5));
    CHECK(between("23:58", "0:03") == Approx(5.0));
    CHECK(between("14:05", "14:05") == 0.0);
    CHECK(between("14:05", "14:04") == -1.0);  // a slip, not a run of a day
    CHECK(between("14:05", "16:06") == -1.0);
}
