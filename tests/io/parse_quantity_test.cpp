#include "io/records/parse_quantity.h"

#include <array>
#include <cmath>
#include <random>

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace farwater::io;

namespace {

struct NumberCase {
    std::string_view text;
    std::string_view theirs;
    double value;
};

void check_numbers(std::string_view ours, std::initializer_list<NumberCase> cases) {
    for (const NumberCase& one : cases) {
        CAPTURE(one.text, one.theirs);
        const CellNumber read = parse_quantity(one.text, one.theirs, ours);
        CHECK(read.kind == CellNumberKind::value);
        CHECK(read.value == Approx(one.value).epsilon(1e-5));
    }
}

void check_number_kind(CellNumberKind kind, std::string_view ours,
                       std::initializer_list<std::string_view> texts) {
    for (const std::string_view text : texts) {
        CAPTURE(text, ours);
        CHECK(parse_quantity(text, ours, ours).kind == kind);
    }
}

}  // namespace

TEST_CASE("commas part groups of three figures and nothing else") {
    CHECK(parse_grouped_number("1,500") == 1500.0);
    CHECK(parse_grouped_number(" 1,234,567.5 ") == 1234567.5);
    CHECK(parse_grouped_number("-12,000") == -12000.0);
    CHECK(parse_grouped_number("1500") == 1500.0);
    for (const char* text :
         {"1,5", "1,50", "0,500", "1,5000", "1500,000", ",500", "1,500,", "1,,500", "1.500,5",
          "1,50,000", "12,34", "1 500", "1,500.2,5", "1,", ",", "1,5oo", "01,500", "--1,500"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_grouped_number(text));
    }
}

// 1 l = 0.2641721 gal, 1 m = 3.280840 ft, 1 acre = 43560 sq ft.
TEST_CASE("a number names its unit, else it has that of its column") {
    check_numbers("gpm", {{"1500", "gpm", 1500},
                          {"1,500 gpm", "gpm", 1500},
                          {"1500GPM", "l/min", 1500},
                          {"1,000 l/min", "gpm", 264.1721},
                          {"1,000", "l/min", 264.1721},
                          {"\xc2\xa0"
                           "750 gal/min\xc2\xa0",
                           "gpm", 750}});
    check_numbers("gal", {{"1,000 gal", "gal", 1000},
                          {"30,000 gallons", "l", 30000},
                          {"10 m3", "gal", 2641.721},
                          {"1000.5 gals.", "gal", 1000.5}});
    check_numbers("ft", {{"30 ft", "m", 30},
                         {"30'", "m", 30},
                         {"12'6\"", "ft", 12.5},
                         {"10 m", "ft", 32.8084},
                         {"-3 ft", "ft", -3},
                         {"\u22123", "ft", -3}});
    check_numbers("in", {{"6\"", "in", 6},
                         {"6 in.", "ft", 6},
                         {"2 1/2", "in", 2.5},
                         {"2-1/2 in", "in", 2.5},
                         {"2\u00bd\"", "in", 2.5},
                         {"1/2 inch", "in", 0.5},
                         {"150 mm", "in", 5.905512}});
    check_numbers("min", {{"90 sec", "min", 1.5}, {"2 hrs", "min", 120}, {"5 minutes", "min", 5}});
    check_numbers("psi", {{"65 psi", "psi", 65}});
    check_numbers("acre", {{"1.5 acres", "acre", 1.5}, {"87,120 sq ft", "acre", 2}});
}

TEST_CASE("signs of money and shares stand only where they can") {
    CHECK(parse_quantity("$250,000", "", "", NumberSign::money).value == 250000.0);
    CHECK(parse_quantity("80%", "", "", NumberSign::share).value == Approx(0.8));
    CHECK(parse_quantity("0.8", "", "", NumberSign::share).value == 0.8);
    for (const char* text : {"$2", "5%", "$5%"}) {
        CAPTURE(text);
        CHECK(parse_quantity(text, "", "").kind == CellNumberKind::unreadable);
        CHECK(parse_quantity(text, "gpm", "gpm").kind == CellNumberKind::unreadable);
    }
    CHECK(parse_quantity("80%", "", "", NumberSign::money).kind == CellNumberKind::unreadable);
}

TEST_CASE("what says that nobody knows is no number and no fault") {
    check_number_kind(
        CellNumberKind::not_known, "gpm",
        {"", " ", "N/A", "n/a", "#N/A", "unknown", "Unknown ", "TBD", "-", "--", "?"});
}

TEST_CASE("what is more than one number, or none for sure, is unreadable") {
    check_number_kind(
        CellNumberKind::unreadable, "gpm",
        {"none",      "1,5",    "1,5 gpm",     "500-750",  "~500", "<500",    "500+",
         "about 500", "500 ft", "500 gal",     "500 gpm?", "gpm",  "1e999",   "nan",
         "5%",        "$5",     "500 gpm 600", "2 1/2",    "10k",  "1.500,0", "500 imp gal/min"});
    check_number_kind(CellNumberKind::unreadable, "min", {"30 m", "1:30", "5 ft", "5'6\""});
    check_number_kind(CellNumberKind::unreadable, "in",
                      {"21/2", "2 3/2", "2 1/0", "2.5 1/2", "-2 1/2", "-1/2", "/2", "1/",
                       "2 1/2 ft", "6/1/2025", "1/2/3"});
    CHECK(parse_quantity("2 1/2", "mm", "in").kind == CellNumberKind::unreadable);
}

TEST_CASE("a number is read to the same value with commas and without", "[property]") {
    const unsigned seed = 1500;
    CAPTURE(seed);
    std::mt19937_64 random(seed);
    for (int i = 0; i < 20000; ++i) {
        const auto number = static_cast<double>(random() % 10'000'000'000ULL >> random() % 30);
        std::string text = fmt::format("{:.0f}", number);
        for (std::size_t at = text.size(); at > 3;) {
            at -= 3;
            text.insert(at, 1, ',');
        }
        CAPTURE(text);
        REQUIRE(parse_grouped_number(text) == number);
        REQUIRE(parse_quantity(text + " gal", "l", "gal").value == number);
        // One figure more or less behind the last comma, and it is none.
        if (text.find(',') != std::string::npos) {
            REQUIRE_FALSE(parse_grouped_number(text + "0"));
            text.pop_back();
            REQUIRE_FALSE(parse_grouped_number(text));
        }
    }
}

TEST_CASE("no text whatever breaks the reading of numbers", "[property]") {
    const unsigned seed = 4712;
    CAPTURE(seed);
    std::mt19937 random(seed);
    constexpr std::string_view pieces = "0123456789.+-,,,'\"/% $tftinmgpalse\xe2\x80\xb2\xff";
    constexpr std::array<std::string_view, 5> units{"gpm", "ft", "in", "min", ""};
    for (int i = 0; i < 200000; ++i) {
        std::string text;
        for (auto length = random() % 12; length > 0; --length) {
            text += pieces[random() % pieces.size()];
        }
        CAPTURE(text);
        const std::string_view unit = units[random() % units.size()];
        const CellNumber read =
            parse_quantity(text, unit, unit, static_cast<NumberSign>(random() % 3));
        REQUIRE(std::isfinite(read.value));
        REQUIRE((read.kind == CellNumberKind::value || read.value == 0.0));
    }
}
