#include "io/records/parse_cell.h"

#include <random>

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace farwater;
using namespace farwater::io;

TEST_CASE("plain digits with a point are a number") {
    CHECK(parse_number("750") == 750.0);
    CHECK(parse_number(" 7.5 ") == 7.5);
    CHECK(parse_number("-3") == -3.0);
    CHECK(parse_number("+3") == 3.0);
    CHECK(parse_number(".5") == 0.5);
    CHECK(parse_number("1e3") == 1000.0);
    CHECK(parse_number("007") == 7.0);
}

TEST_CASE("what is more or less than a number is none") {
    for (const char* text : {"", " ", "1,200", "n/a", "750 gpm", "12-3", "1.2.3", "nan", "inf",
                             "-inf", "0x10", "1e999", "--1", "+-1", "one", "1 000", "5'"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_number(text));
    }
}

TEST_CASE("every number that is printed is read back to the bit") {
    const unsigned seed = 7;
    CAPTURE(seed);
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> exponent(-20.0, 20.0);
    for (int i = 0; i < 20000; ++i) {
        const double value = (random() % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, exponent(random));
        CAPTURE(value);
        REQUIRE(parse_number(fmt::format("{}", value)) == value);
    }
}

TEST_CASE("a letter or comma anywhere in a number makes it no number") {
    const unsigned seed = 11;
    CAPTURE(seed);
    std::mt19937 random(seed);
    constexpr std::string_view strange = ",abcdfgxyz$%/_'\" ";
    for (int i = 0; i < 5000; ++i) {
        std::string text = fmt::format("{}", random() % 100000);
        const bool inside = text.size() > 1;
        const char letter = strange[random() % (inside ? strange.size() : strange.size() - 1)];
        // A blank counts only between digits: around the number it is trimmed.
        const std::size_t at = inside ? 1 + random() % (text.size() - 1) : random() % 2;
        text.insert(at, 1, letter);
        CAPTURE(text);
        REQUIRE_FALSE(parse_number(text));
    }
}

TEST_CASE("yes and no have several spellings") {
    for (const char* text : {"yes", "Y", "TRUE", " true ", "t", "1"}) {
        CHECK(parse_yes_no(text) == true);
    }
    for (const char* text : {"no", "N", "False", "f", "0"}) {
        CHECK(parse_yes_no(text) == false);
    }
    for (const char* text : {"", "2", "maybe", "-1", "yes!"}) {
        CHECK_FALSE(parse_yes_no(text));
    }
}

TEST_CASE("dates are year, month and day of the calendar") {
    using namespace std::chrono_literals;
    CHECK(parse_year_first_date("2026-05-31") == 2026y / 5 / 31);
    CHECK(parse_year_first_date("2026/05/31") == 2026y / 5 / 31);
    CHECK(parse_year_first_date(" 2026-05-31T12:00:00 ") == 2026y / 5 / 31);
    CHECK(parse_year_first_date("2024-02-29") == 2024y / 2 / 29);
    for (const char* text : {"", "2026-02-30", "2026-13-01", "5/31/2026", "2026-5-31", "31-05-2026",
                             "2026", "2026-05-311", "20a6-05-31"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_year_first_date(text));
    }
}

TEST_CASE("months are single ones, ranges over the new year, lists, or all") {
    const auto months = [](std::string_view text) {
        std::string list;
        const auto set = parse_months(text);
        for (unsigned m = 1; set && m <= 12; ++m) {
            list += set->contains(std::chrono::month(m)) ? fmt::format("{} ", m) : "";
        }
        return set ? list : "none";
    };
    CHECK(months("all") == "1 2 3 4 5 6 7 8 9 10 11 12 ");
    CHECK(months("4-6") == "4 5 6 ");
    CHECK(months("11-2") == "1 2 11 12 ");
    CHECK(months("4, 5 ,6") == "4 5 6 ");
    CHECK(months("1-3,12") == "1 2 3 12 ");
    CHECK(months("7") == "7 ");
    for (const char* text : {"", "13", "0-4", "4-", "-4", "April", "4,,5", "4-11-12", "4;5"}) {
        CAPTURE(text);
        CHECK(months(text) == "none");
    }
}
