#include "io/records/parse_date.h"

#include <cmath>
#include <random>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "io/records/not_known.h"

using namespace farwater;
using namespace farwater::io;
using namespace std::chrono_literals;

namespace {

Date day_read(std::string_view text, DateOrder order = DateOrder::unstated) {
    const ReadDate read = read_date(text, order);
    CAPTURE(text);
    REQUIRE(read.kind == DateKind::value);
    return read.date;
}

void check_date_kind(DateKind kind, DateOrder order,
                     std::initializer_list<std::string_view> texts) {
    for (const std::string_view text : texts) {
        CAPTURE(text);
        CHECK(read_date(text, order).kind == kind);
    }
}

}  // namespace

TEST_CASE("a date that means one day alone is read in many spellings") {
    for (const char* text :
         {"2025-06-01", "2025/06/01", "2025/6/1", "2025.6.1", "20250601", " 2025-06-01T12:00:00Z ",
          "2025-06-01 00:00:00+00", "1-Jun-2025", "01-JUN-25", "1 June 2025", "1st June 2025",
          "June 1, 2025", "Jun. 1, 2025", "June 1st, 2025", "2025 Jun 1"}) {
        CHECK(day_read(text) == 2025y / 6 / 1);
    }
    CHECK(day_read("13/1/2025") == 2025y / 1 / 13);
    CHECK(day_read("1/13/2025") == 2025y / 1 / 13);
    CHECK(day_read("1/13/2025 12:00:00 AM") == 2025y / 1 / 13);
    CHECK(day_read("6/6/2025") == 2025y / 6 / 6);
    CHECK(day_read("6/13/98") == 1998y / 6 / 13);
    CHECK(day_read("3-Sept-30") == 1930y / 9 / 3);
    CHECK(day_read("2/29/2024") == 2024y / 2 / 29);
}

TEST_CASE("a date that can be two days is none until somebody says what stands first") {
    check_date_kind(
        DateKind::ambiguous, DateOrder::unstated,
        {"3/4/2025", "03.04.2025", "3-4-2025", "06/01/25", "13/06/25", "3/4/2025 0:00"});
    CHECK(day_read("3/4/2025", DateOrder::month_first) == 2025y / 3 / 4);
    CHECK(day_read("3/4/2025", DateOrder::day_first) == 2025y / 4 / 3);
    CHECK(day_read("06/01/25", DateOrder::month_first) == 2025y / 6 / 1);
    CHECK(day_read("06/01/25", DateOrder::day_first) == 2025y / 1 / 6);
    CHECK(day_read("2025-06-01", DateOrder::day_first) == 2025y / 6 / 1);
}

TEST_CASE("a date against the stated order is none, for the others may be too") {
    check_date_kind(DateKind::unreadable, DateOrder::month_first, {"13/1/2025", "25/06/01"});
    check_date_kind(DateKind::unreadable, DateOrder::day_first, {"1/13/2025", "06/13/98"});
}

TEST_CASE("what is no day of the calendar is no date") {
    check_date_kind(
        DateKind::unreadable, DateOrder::unstated,
        {"2025",       "June 2025",   "Jun-25",      "6/2025",        "2/30/2025",
         "13/13/2025", "0/5/2025",    "2025-13-01",  "6/1-2025",      "6/1/2025/3",
         "6/1/025",    "6/1/20255",   "summer 2025", "1 Juin 2025",   "2025-06-01 (dry)",
         "6 1 2025",   "1899-12-30",  "6/1/2205",    "June 31, 2025", "1/Jun",
         ":",          "12:00",       "6/1/2025,",   "-6/1/2025",     "20251301",
         "1e5",        "6\xc2\xa0/1", "June June 1", "1 2 June",      "12025-06-01"});
}

TEST_CASE("a cell that says that nobody knows holds no date and no fault") {
    check_date_kind(DateKind::not_known, DateOrder::unstated,
                    {"", " ", "n/a", "N/A", "TBD", "unknown", "-", "--", "?", "\u2013", "#N/A"});
    CHECK_FALSE(says_not_known("none"));
    CHECK_FALSE(says_not_known("0"));
    CHECK_FALSE(says_not_known("-5"));
}

// Known pairs: 1 is 1900-01-01 by way of a 29 February 1900 that never was, 25569 is 1970-01-01
// (from memory).
TEST_CASE("a spreadsheet's day number is read, and said to be one") {
    for (const ReadDate& read :
         {date_of_number(45809.0), date_of_number(45809.75), read_date("45809", {})}) {
        CHECK(read.kind == DateKind::from_day_number);
        CHECK(read.date == 2025y / 6 / 1);
    }
    CHECK(date_of_number(25569.0).date == 1970y / 1 / 1);
    CHECK(date_of_number(20250601.0).kind == DateKind::value);
    CHECK(date_of_number(20250601.0).date == 2025y / 6 / 1);
    for (const double number :
         {0.0, 2025.0, 6.1, -45809.0, 1748736000.0, 20250631.0, std::nan("")}) {
        CAPTURE(number);
        CHECK(date_of_number(number).kind == DateKind::unreadable);
    }
}

TEST_CASE("a day that is written in any order is read back or ambiguous, never another day",
          "[property]") {
    const unsigned seed = 20260601;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int i = 0; i < 20000; ++i) {
        const Date day{std::chrono::sys_days(1930y / 1 / 1) +
                       std::chrono::days(random() % (365 * 99))};
        const auto y = static_cast<int>(day.year());
        const auto m = static_cast<unsigned>(day.month());
        const auto d = static_cast<unsigned>(day.day());
        CAPTURE(y, m, d);
        for (const std::string& text :
             {fmt::format("{}/{}/{}", m, d, y), fmt::format("{}/{}/{}", d, m, y),
              fmt::format("{:02}/{:02}/{:02}", m, d, y % 100),
              fmt::format("{:02}.{:02}.{:02}", d, m, y % 100),
              fmt::format("{:02}-{:02}-{:02}", y % 100, m, d)}) {
            const ReadDate read = read_date(text, DateOrder::unstated);
            CAPTURE(text);
            REQUIRE((read.kind == DateKind::ambiguous || read.date == day));
        }
        REQUIRE(day_read(fmt::format("{}/{}/{:02}", m, d, y % 100), DateOrder::month_first) == day);
        REQUIRE(day_read(fmt::format("{}/{}/{}", d, m, y), DateOrder::day_first) == day);
    }
}

TEST_CASE("no text whatever breaks the reading of dates", "[property]") {
    const unsigned seed = 815;
    CAPTURE(seed);
    std::mt19937 random(seed);
    constexpr std::string_view pieces = "0123456789/-.,: Tjunemaystrdh\xff\xc2";
    for (int i = 0; i < 200000; ++i) {
        std::string text;
        for (auto length = random() % 12; length > 0; --length) {
            text += pieces[random() % pieces.size()];
        }
        CAPTURE(text);
        const ReadDate read = read_date(text, static_cast<DateOrder>(random() % 3));
        const bool day = read.kind == DateKind::value || read.kind == DateKind::from_day_number;
        REQUIRE((!day || read.date.ok()));
    }
}
