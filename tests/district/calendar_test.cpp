#include "analyzer/district/calendar.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace std::chrono_literals;

TEST_CASE("months between dates are whole months") {
    const Date tested = 2023y / 5 / 31;
    CHECK(months_between(tested, 2024y / 5 / 31) == 12);
    CHECK(months_between(tested, 2024y / 5 / 30) == 11);
    CHECK(months_between(tested, 2023y / 6 / 30) == 0);
    CHECK(months_between(tested, 2023y / 7 / 1) == 1);
}

TEST_CASE("a later date that is not later is no month away") {
    CHECK(months_between(2024y / 5 / 1, 2024y / 5 / 1) == 0);
    CHECK(months_between(2024y / 5 / 1, 2020y / 1 / 1) == 0);
}

TEST_CASE("a set of months holds what was included") {
    MonthSet winter;
    CHECK(winter.empty());
    winter.include(std::chrono::December);
    winter.include(std::chrono::January);
    CHECK(winter.contains(std::chrono::December));
    CHECK(winter.contains(std::chrono::January));
    CHECK_FALSE(winter.contains(std::chrono::July));
    CHECK_FALSE(winter.empty());
}

TEST_CASE("all months cover every season and a part does not cover the whole") {
    MonthSet summer;
    summer.include(std::chrono::July);
    CHECK(MonthSet::all().covers(summer));
    CHECK(MonthSet::all().covers(MonthSet::all()));
    CHECK_FALSE(summer.covers(MonthSet::all()));
    CHECK(summer.covers(MonthSet{}));
    for (unsigned month = 1; month <= 12; ++month) {
        CHECK(MonthSet::all().contains(std::chrono::month(month)));
    }
}
