// Mean value analysis against published networks. The values of Jain and of Bolch et al. are those
// that an open-source queueing toolbox's tests quote; they were computed anew besides.
#include "analyzer/supply/bounds/closed_queue.h"

#include <cmath>

#include <catch2/catch.hpp>

using namespace farwater::supply;

namespace {

ClosedQueue queue_of(std::vector<std::size_t> servers, std::vector<double> demands, double delay,
                     std::size_t customers) {
    return {std::move(servers), {QueueClass{customers, delay, std::move(demands)}}};
}

constexpr double as_printed = 1e-3;

}  // namespace

TEST_CASE("a time-sharing system is what Jain prints") {
    // Jain, The Art of Computer Systems Performance Analysis, 1991, p. 577.
    const QueueAnswer answer = solve(queue_of({1, 1, 1}, {2.0, 3.0, 1.0}, 4.0, 20));
    CHECK(answer.at[0][0] == Approx(1.991).margin(as_printed));
    CHECK(answer.at[0][1] == Approx(16.177).margin(as_printed));
    CHECK(answer.at[0][2] == Approx(0.500).margin(as_printed));
    CHECK(answer.staying[0][0] / 16.0 == Approx(0.373).margin(as_printed));
    CHECK(answer.staying[0][1] / 10.0 == Approx(4.854).margin(as_printed));
    CHECK(answer.staying[0][2] / 5.0 == Approx(0.300).margin(as_printed));
    const std::vector<std::pair<std::size_t, double>> growing{
        {1, 0.1000}, {2, 0.1754}, {3, 0.2292}, {5, 0.2898}, {10, 0.3282}};
    for (const auto& [customers, rounds] : growing) {  // computed, no source
        CHECK(solve(queue_of({1, 1, 1}, {2.0, 3.0, 1.0}, 4.0, customers)).rounds[0] ==
              Approx(rounds).margin(1e-4));
    }
}

TEST_CASE("several servers and a delay are what Bolch et al. print") {
    // Bolch, Greiner, de Meer, Trivedi, Queueing Networks and Markov Chains, ex. 8.4 p. 333.
    const QueueAnswer two = solve(queue_of({2, 1, 1}, {0.5, 0.3, 0.4}, 1.0, 3));
    CHECK(two.at[0][0] == Approx(0.624).margin(as_printed));
    CHECK(two.at[0][1] == Approx(0.473).margin(as_printed));
    CHECK(two.at[0][2] == Approx(0.686).margin(as_printed));
    CHECK(two.rounds[0] * 1.0 == Approx(1.217).margin(as_printed));  // customers in the delay
    // The same book, ex. 8.3 p. 331.
    const QueueAnswer one = solve(queue_of({1, 1, 1, 1}, {0.02, 0.08, 0.08, 0.06}, 0.0, 6));
    CHECK(one.rounds[0] == Approx(9.920).margin(as_printed));
    CHECK(one.at[0][0] == Approx(0.244).margin(as_printed));
    CHECK(one.at[0][1] == Approx(2.261).margin(as_printed));
    CHECK(one.at[0][3] == Approx(1.234).margin(as_printed));
    CHECK(one.staying[0][1] / 0.4 == Approx(0.570).margin(as_printed));
    // The same book, ex. 8.1 p. 318: two, three and one servers.
    const QueueAnswer three =
        solve(queue_of({2, 3, 1}, {1.25, 1.66667 * 0.66667, 2.5 * 0.2}, 0.0, 3));
    CHECK(three.rounds[0] == Approx(0.945).margin(as_printed));
    CHECK(three.at[0][0] == Approx(1.290).margin(as_printed));
    CHECK(three.at[0][1] == Approx(1.050).margin(as_printed));
    CHECK(three.at[0][2] == Approx(0.660).margin(as_printed));
}

TEST_CASE("a database server is what the textbook prints") {
    // Demands 10, 7.5, 15, two customers: queues .5913, .4174, .9913 (from memory).
    const QueueAnswer answer = solve(queue_of({1, 1, 1}, {10.0, 7.5, 15.0}, 0.0, 2));
    CHECK(answer.rounds[0] == Approx(52.0 / 1150.0).epsilon(1e-9));
    CHECK(answer.at[0][0] == Approx(0.5913).margin(1e-4));
    CHECK(answer.at[0][1] == Approx(0.4174).margin(1e-4));
    CHECK(answer.at[0][2] == Approx(0.9913).margin(1e-4));
}

TEST_CASE("throughput lies within published bounds") {
    // Casale, Muntz, Serazzi, Geometric Bounds, IEEE Trans. Computers 57 (2008), tables IV and V.
    struct Row {
        double delay;
        std::size_t customers;
        double low, high;
    };
    constexpr Row rows[] = {{0, 2, 4.3040, 4.3174},  {0, 5, 6.6859, 6.7524},
                            {0, 10, 8.1521, 8.2690}, {0, 20, 9.0947, 9.2431},
                            {0, 80, 9.8233, 9.8765}, {1, 2, 1.4319, 1.5195},
                            {1, 5, 3.3432, 3.5582},  {1, 10, 5.7569, 6.1410},
                            {1, 20, 8.0856, 8.6467}, {1, 80, 9.7147, 9.8594}};
    for (const Row& row : rows) {
        CAPTURE(row.delay, row.customers);
        const double rounds =
            solve(queue_of({1, 1, 1, 1}, {0.1, 0.1, 0.09, 0.08}, row.delay, row.customers))
                .rounds[0];
        CHECK(rounds >= row.low - 1e-4);
        CHECK(rounds <= row.high + 1e-4);
    }
}

TEST_CASE("machines that wait for repairers follow the closed form") {
    // N machines, c repairers: p_n goes with (mu/lambda)^n, N! / (N-n)! and 1 / (n! up to c, then
    // c! c^(n-c)); the textbook's finite-source queue.
    for (const std::size_t servers : {1U, 2U, 3U}) {
        for (std::size_t machines = 1; machines <= 24; ++machines) {
            CAPTURE(servers, machines);
            const double up = 12.0;
            const double repair = 8.0;
            std::vector<double> chance{1.0};
            for (std::size_t n = 1; n <= machines; ++n) {
                const double busy = static_cast<double>(std::min(n, servers));
                chance.push_back(chance.back() * static_cast<double>(machines - n + 1) * repair /
                                 (up * busy));
            }
            double all = 0.0;
            double working = 0.0;
            for (std::size_t n = 0; n <= machines; ++n) {
                all += chance[n];
                working += chance[n] * static_cast<double>(std::min(n, servers));
            }
            CHECK(solve(queue_of({servers}, {repair}, up, machines)).rounds[0] ==
                  Approx(working / all / repair).epsilon(1e-6));
        }
    }
}

TEST_CASE("classes that are alike are one class") {
    const double all = solve(queue_of({2, 1}, {3.0, 1.5}, 6.0, 7)).rounds[0];
    const QueueClass part{3, 6.0, {3.0, 1.5}};
    const QueueClass rest{4, 6.0, {3.0, 1.5}};
    const QueueAnswer answer = solve({{2, 1}, {part, rest}});
    CHECK(answer.rounds[0] + answer.rounds[1] == Approx(all).epsilon(1e-9));
    CHECK(answer.rounds[0] == Approx(all * 3.0 / 7.0).epsilon(1e-9));
}
