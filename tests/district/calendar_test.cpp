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

TEST_CASE("months are named in rows, over the turn of the year too") {
    const auto months = [](std::initializer_list<unsigned> numbers) {
        MonthSet set;
        for (const unsigned number : numbers) {
            set.include(std::chrono::month(number));
        }
        return set;
    };
    CHECK(month_words(MonthSet::all()) == "all year");
    CHECK(month_words(MonthSet()).empty());
    CHECK(month_words(months({4, 5, 6, 7})) == "Apr to Jul");
    CHECK(month_words(months({1, 2, 6, 12})) == "Jun, Dec to Feb");
    CHECK(month_words(months({1, 12})) == "Dec, Jan");
    CHECK(month_words(months({1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11})) == "Jan to Nov");
}

TEST_CASE("seasons cover months once or twice") {
    MonthSet may;
    may.include(std::chrono::May);
    Season all_year;
    Season in_may;
    in_may.months = may;
    CHECK(months_covered({in_may}).once == may);
    CHECK(months_covered({in_may}).twice.empty());
    CHECK(months_covered({all_year, in_may}).once == MonthSet::all());
    CHECK(months_covered({all_year, in_may}).twice == may);
    CHECK(months_covered({}).once.empty());
}
