// Transfer between portable tanks, against a twin that moves the water step by step.
#include "analyzer/hydraulics/transfer.h"

#include <cmath>
#include <random>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/draws.h"
#include "tests/support/ticked_tanks.h"

using namespace farwater;
using namespace farwater::hydraulics;

namespace {

constexpr double tick = 0.002;

double limit_of(const std::vector<double>& tanks, double siphon) {
    std::vector<Volume> usable;
    for (const double tank : tanks) {
        usable.push_back(gallons(tank));
    }
    return in_gpm(transfer_limit(usable, gpm(siphon)));
}

std::vector<double> drawn_tanks(std::mt19937& random, std::size_t count) {
    std::vector<double> tanks;
    for (std::size_t i = 0; i < count; ++i) {
        tanks.push_back(std::uniform_real_distribution<>(800, 3500)(random));
    }
    return tanks;
}

}  // namespace

TEST_CASE("a line of equal tanks lets the draft have twice the siphon's flow, of three once it",
          "[unit]") {
    CHECK(std::isinf(limit_of({2332}, 800)));
    CHECK(limit_of({2332, 2332}, 800) == Approx(1600));
    CHECK(limit_of({2332, 2332, 2332}, 800) == Approx(800));
    CHECK(limit_of({2332, 2332}, 0) == 0.0);
    CHECK(limit_of({3000, 1500}, 800) == Approx(2400));  // 800 (3000 + 1500) / 1500
}

// The figures of a tick model of our own, worked out anew: a siphon of 1,200 gpm (common practice,
// no source), a strainer of 2,000, tanks of 2,332 gal that are full at first, two hours.
TEST_CASE("loads into the last tank are held down by the siphon, front first by the strainer",
          "[twin]") {
    using slow::DumpedInto;
    const auto held = [](std::size_t tanks, DumpedInto dumped) {
        return slow::ticked_flow_of_line({std::vector(tanks, 2332.0), 1200, dumped}, 3000, 120,
                                         2000, 0.01);
    };
    const double of_storage = 2332.0 / 120.0;  // the full draft tank's share
    CHECK(held(2, DumpedInto::last_tank) == Approx(1200 + of_storage).epsilon(0.005));
    const double of_three = held(3, DumpedInto::last_tank);  // the middle tank's is moved once
    CHECK(of_three > 600);
    CHECK(of_three < 600 + 1.5 * of_storage + 0.1);
    CHECK(held(2, DumpedInto::front_first) == 2000.0);
    CHECK(held(3, DumpedInto::front_first) == 2000.0);
}

TEST_CASE("up to its limit a line of tanks is one pool, whatever comes when", "[twin]") {
    std::mt19937 random(20261129);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    for (int i = 0; i < test::draws(150); ++i) {
        const slow::TankLine line{drawn_tanks(random, 2 + static_cast<std::size_t>(i) % 2),
                                  between(300, 1200), slow::DumpedInto::front_first};
        const double flow = limit_of(line.holds, line.siphon) * between(0.6, 0.995);
        std::vector<slow::Inflow> coming;
        for (double time = 0.0; time < 60.0; time += between(0.5, 6.0)) {
            coming.push_back({time, coming.size() % 2 == 0 ? 0.0 : between(0, 2000)});
        }
        const slow::TicksOfLine ticks = slow::ticked_line(line, coming, flow, 60.0, tick);
        CAPTURE(i, flow, line.siphon, ticks.dry_at);
        CHECK(ticks.stranded <= 4.0 * tick * (line.siphon + flow));
    }
}

TEST_CASE("above its limit a line of two full tanks runs dry with water left in the second",
          "[twin]") {
    std::mt19937 random(20261130);
    for (int i = 0; i < 40; ++i) {
        const slow::TankLine line{drawn_tanks(random, 2), 600, slow::DumpedInto::front_first};
        const double flow = limit_of(line.holds, line.siphon);
        CHECK(slow::ticked_line(line, {}, flow * 1.05, 60.0, tick).stranded > 20.0);
        CHECK(slow::ticked_line(line, {}, flow * 0.99, 60.0, tick).stranded < 5.0);
    }
}
