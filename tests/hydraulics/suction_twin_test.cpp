// The clever solver against bisection on losses in metric units.
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/hydraulics/suction.h"
#include "tests/support/slow_suction.h"

using namespace farwater;
using namespace farwater::hydraulics;

namespace {

using Random = std::mt19937;

double between(Random& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

SuctionPipe drawn_pipe(Random& random, double longest_ft) {
    return {feet(between(random, 0, longest_ft)),
            inches(between(random, 2.5, 14)),
            {between(random, 0.009, 0.016), between(random, 90, 155)}};
}

slow::Bore bore_of(const SuctionPipe& pipe) {
    return {in_metres(pipe.length), in_metres(pipe.diameter), pipe.roughness.manning_n,
            pipe.roughness.hazen_williams_c};
}

}  // namespace

TEST_CASE("suction flows are those that bisection finds", "[twin]") {
    Random random(20260531);
    for (int i = 0; i < 2000; ++i) {
        const SuctionLine line{drawn_pipe(random, 400), drawn_pipe(random, 40),
                               feet(between(random, 0, 8))};
        const Length lift = feet(between(random, -10, 22));
        const auto formula = static_cast<SuctionFriction>(i % 3);
        const slow::Suction twin{bore_of(line.pipe), bore_of(line.hose),
                                 in_metres(line.entrance_at_500)};
        const double expected = slow::drawn(twin, in_metres(feet(20) - lift), formula);
        const auto flow = suction_flow(line, lift, feet(20), formula);
        CAPTURE(i, in_feet(lift), expected);
        REQUIRE(flow.has_value() == (lift < feet(20)));
        REQUIRE(in_gpm(flow.value_or(gpm(0))) == Approx(expected).epsilon(1e-3).margin(1e-6));
    }
}

TEST_CASE("less lift, a shorter, wider or smoother pipe never draws less", "[property]") {
    Random random(20260531);
    for (int i = 0; i < 2000; ++i) {
        const SuctionLine line{drawn_pipe(random, 400), drawn_pipe(random, 40),
                               feet(between(random, 0, 8))};
        const Length lift = feet(between(random, 0, 19));
        const auto flow_of = [&](const SuctionLine& other, Length at) {
            return in_gpm(*suction_flow(other, at, feet(20), SuctionFriction::conservative));
        };
        const double before = flow_of(line, lift);
        SuctionLine better = line;
        switch (i % 4) {
            case 0:
                better.pipe.length = better.pipe.length * 0.9;
                break;
            case 1:
                better.pipe.diameter = better.pipe.diameter * 1.1;
                break;
            case 2:
                better.pipe.roughness = {line.pipe.roughness.manning_n * 0.9,
                                         line.pipe.roughness.hazen_williams_c * 1.1};
                break;
            default:
                break;
        }
        CAPTURE(i, before);
        REQUIRE(flow_of(better, i % 4 == 3 ? lift * 0.9 : lift) >= before - 1e-6);
    }
}
