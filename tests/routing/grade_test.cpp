#include "routing/driving/grade.h"

#include <array>

#include <catch2/catch.hpp>

using namespace farwater;
using routing::Climb;
using routing::Grade;

namespace {

double crawl(double pounds_per_hp, double percent) {
    return in_mph(routing::crawl_speed(pounds_per_horsepower(pounds_per_hp),
                                       static_cast<Grade>(percent * 100)));
}

}  // namespace

TEST_CASE("crawl speeds are those of the power relation") {
    // Computed from V = 375 x 0.85 / (w (G + 0.012)), rounded to whole mph; of grades beyond 6 %
    // for 200 lb/hp AASHTO has 21 at 7 % and 18 to 19 at 8 % (from memory).
    const auto [pounds_per_hp, percent, expected] = GENERATE(table<double, double, double>(
        {{200, 2, 50}, {200, 3, 38},  {200, 4, 31}, {200, 5, 26},  {200, 6, 22}, {200, 7, 19},
         {200, 8, 17}, {200, 10, 14}, {150, 2, 66}, {150, 3, 51},  {150, 4, 41}, {150, 5, 34},
         {150, 6, 30}, {150, 7, 26},  {150, 8, 23}, {150, 10, 19}, {100, 3, 76}, {100, 4, 61},
         {100, 5, 51}, {100, 6, 44},  {100, 7, 39}, {100, 8, 35},  {100, 10, 28}}));
    CAPTURE(pounds_per_hp, percent);
    CHECK(crawl(pounds_per_hp, percent) == Approx(expected).margin(0.51));
}

TEST_CASE("one horsepower lifts 1,000 lb up a grade of 1 % at 37.5 mph") {
    // "What is grade resistance?": P = W G V / 375; ours loses 15 % and rolls against 1.2 %.
    CHECK(crawl(100, 12) * (0.12 + 0.012) / 0.85 == Approx(37.5 * 10 * 0.01));
}

TEST_CASE("5 mph are held whatever the weight, and no more is taken for granted") {
    // Common practice, no source: lowest gear.
    CHECK(crawl(1000, 6) == Approx(5));
    // 60,000 lb by 200 hp on 6 %.
    CHECK(crawl(300, 6) == Approx(318.75 / (300 * 0.072)));
    CHECK(crawl(250, 7) == Approx(318.75 / (250 * 0.082)));
}

TEST_CASE("steeper or heavier is never faster") {
    for (double pounds_per_hp = 20; pounds_per_hp < 900; pounds_per_hp *= 1.3) {
        for (double percent = 0.5; percent <= 18; percent += 0.5) {
            CHECK(crawl(pounds_per_hp, percent) <= crawl(pounds_per_hp, percent - 0.5));
            CHECK(crawl(pounds_per_hp * 1.3, percent) <= crawl(pounds_per_hp, percent));
        }
    }
}

TEST_CASE("a climb adds what the slow steps take longer, and nothing downhill") {
    const std::array<Grade, 4> steps{0, 800, 200, -800};
    const Climb climb(mph(30), pounds_per_horsepower(150));
    const double slow = 318.75 / (150 * 0.092);
    const double expected = 0.5 / slow * 60 - 0.5 / 30 * 60;
    CHECK(in_minutes(climb.delay(steps, miles(2), true)) == Approx(expected));
    CHECK(in_minutes(climb.delay(steps, miles(2), false)) == Approx(expected));  // the other hill
    const std::array<Grade, 2> down{-800, -300};
    CHECK(in_minutes(climb.delay(down, miles(2), true)) == 0.0);
    CHECK(in_minutes(climb.delay({}, miles(2), true)) == 0.0);
}

TEST_CASE("a grade that is not known is level, whichever way it is driven") {
    const std::array<Grade, 2> steps{routing::no_grade, routing::no_grade};
    const Climb climb(mph(45), pounds_per_horsepower(300));
    CHECK(in_minutes(climb.delay(steps, miles(1), true)) == 0.0);
    CHECK(in_minutes(climb.delay(steps, miles(1), false)) == 0.0);
}

TEST_CASE("a vehicle without weight and one that is slow anyway are not slowed") {
    const std::array<Grade, 1> steep{1800};
    CHECK(in_minutes(Climb(mph(45), {}).delay(steep, miles(1), true)) == 0.0);
    CHECK(in_minutes(Climb(mph(5), pounds_per_horsepower(900)).delay(steep, miles(1), true)) ==
          0.0);
    CHECK(in_minutes(Climb(mph(6), pounds_per_horsepower(900)).delay(steep, miles(1), true)) ==
          Approx(60.0 / 5 - 60.0 / 6));
    // So heavy for its power that level road slows it: downhill it is not.
    const std::array<Grade, 1> down{-100};
    CHECK(in_minutes(Climb(mph(60), pounds_per_horsepower(900)).delay(down, miles(1), true)) ==
          0.0);
}
