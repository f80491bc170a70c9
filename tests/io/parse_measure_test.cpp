#include "io/records/parse_measure.h"

#include <cmath>
#include <random>

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace farwater::io;

namespace {

struct Case {
    std::string_view text;
    std::string_view theirs;
    double value;
};

void check_values(std::string_view ours, std::initializer_list<Case> cases) {
    for (const Case& one : cases) {
        CAPTURE(one.text, one.theirs);
        const Measure measure = parse_measure(one.text, one.theirs, ours);
        CHECK(measure.kind == MeasureKind::value);
        CHECK(measure.value == Approx(one.value).epsilon(1e-4));
    }
}

void check_kind(MeasureKind kind, std::string_view ours,
                std::initializer_list<std::string_view> texts) {
    for (const std::string_view text : texts) {
        CAPTURE(text, ours);
        CHECK(parse_measure(text, "", ours).kind == kind);
    }
}

}  // namespace

TEST_CASE("speeds carry their unit or take that of their column") {
    check_values("mph", {{"65 mph", "km/h", 65},
                         {"65mph", "km/h", 65},
                         {" 65 MPH ", "mph", 65},
                         {"105", "km/h", 65.244},
                         {"105", "mph", 105},
                         {"105", "", 105},
                         {"50 km/h", "mph", 31.069},
                         {"50 kmh", "mph", 31.069},
                         {"50 kph", "mph", 31.069},
                         {"10 knots", "km/h", 11.508},
                         {"35 mph;25 mph", "km/h", 25},
                         {"50; 30", "km/h", 18.641},
                         {"none;30 mph", "km/h", 30},
                         {"walk", "km/h", 4},
                         {"+30", "mph", 30}});
}

TEST_CASE("weights are tonnes, short tons or pounds by name") {
    check_values("lb", {{"3.5 t", "tonne", 7716.18},
                        {"3.5", "tonne", 7716.18},
                        {"10 st", "tonne", 20000},
                        {"20000 lbs", "tonne", 20000},
                        {"20000 lb", "tonne", 20000},
                        {"7.5", "short_ton", 15000},
                        {"7.5 t", "short_ton", 15000},
                        {"15 T", "lb", 30000},
                        {"15 tons", "tonne", 30000},
                        {"15 TONS", "lb", 30000},
                        {"15 metric tons", "lb", 33069.3},
                        {"9000 kg", "lb", 19841.6},
                        {"20000", "lb", 20000},
                        {"20,000 lbs", "tonne", 20000},
                        {"20,000", "lb", 20000},
                        {"20000", "", 20000},
                        {"999", "lb", 999},  // could be pounds
                        {"15 st;25 st", "tonne", 30000}});
}

TEST_CASE("heights and widths are metres, feet or feet and inches") {
    check_values("ft", {{"12'6\"", "m", 12.5},
                        {"12' 6\"", "m", 12.5},
                        {"12'-6\"", "m", 12.5},
                        {"12' 6", "m", 12.5},
                        {"12 ft 6 in", "m", 12.5},
                        {"12ft6in", "m", 12.5},
                        {"12 feet 6 inches", "m", 12.5},
                        {"12'6''", "m", 12.5},
                        {"12\u20326\u2033", "m", 12.5},
                        {"12'", "m", 12},
                        {"13'0\"", "m", 13},
                        {"150\"", "m", 12.5},
                        {"11 ft", "m", 11},
                        {"11", "ft", 11},
                        {"3.8 m", "ft", 12.467},
                        {"3.8", "m", 12.467},
                        {"380 cm", "ft", 12.467}});
}

TEST_CASE("what says that nothing is recorded is not known and no fault") {
    check_kind(MeasureKind::not_recorded, "mph",
               {"", " ", "none", "NONE", "signals", "variable", "999", "0", "-1", "0 mph",
                "unknown", ";"});
    check_kind(MeasureKind::not_recorded, "ft", {"", "default", "none", "0", "-1", "no_sign"});
    check_kind(MeasureKind::not_recorded, "lb", {"", "none", "unsigned", "0", "-1"});
    CHECK(measure_of(999.0, "mph", "mph").kind == MeasureKind::not_recorded);
    CHECK(measure_of(999.0, "lb", "lb").kind == MeasureKind::value);
}

TEST_CASE("what is no measure is unreadable") {
    check_kind(MeasureKind::unreadable, "mph",
               {"fast", "RO:urban", "65 m", "65 lb", "mph", "65 mph mph", "6,5", "1.2.3 mph",
                "30-50", "30;fast", "walkway", "nan", "inf mph", "1e999", "65 mphh"});
    check_kind(MeasureKind::unreadable, "lb",
               {"signals", "10 ft", "20,00", "20,0000 lbs", "3,5 t", "heavy"});
    check_kind(MeasureKind::unreadable, "ft",
               {"below_default", "12'13\"", "12'-", "12'6 lb", "3,8 m", "'6\"", "12f6", "-12'6\"",
                "12'6'6", "walk"});
}

TEST_CASE("printed measures are read back", "[property]") {
    const unsigned seed = 20261125;
    CAPTURE(seed);
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> value(1.0, 90.0);
    for (int i = 0; i < 5000; ++i) {
        const double number = value(random);
        CAPTURE(number);
        const Measure mph = parse_measure(fmt::format("{} mph", number), "km/h", "mph");
        REQUIRE(mph.kind == MeasureKind::value);
        REQUIRE(mph.value == number);
        const int feet = static_cast<int>(number);
        const int inches = static_cast<int>(random() % 12);
        const Measure tall = parse_measure(fmt::format("{}'{}\"", feet, inches), "m", "ft");
        REQUIRE(tall.value == Approx(feet + inches / 12.0).epsilon(1e-12));
    }
}

TEST_CASE("no text whatever breaks the reading of measures", "[property]") {
    const unsigned seed = 4711;
    CAPTURE(seed);
    std::mt19937 random(seed);
    constexpr std::string_view pieces = "0123456789.+-;,'\" \tftinmphlbsk/ehwaTON\xe2\x80\xb2\xff";
    constexpr std::array<std::string_view, 3> units{"mph", "ft", "lb"};
    for (int i = 0; i < 200000; ++i) {
        std::string text;
        for (auto length = random() % 12; length > 0; --length) {
            text += pieces[random() % pieces.size()];
        }
        CAPTURE(text);
        const Measure measure = parse_measure(text, units[random() % 3], units[random() % 3]);
        REQUIRE(std::isfinite(measure.value));
        REQUIRE((measure.kind == MeasureKind::value || measure.value == 0.0));
    }
}
