// Closed queueing networks: so many customers go round and round between stations with one or more
// servers and through delays, service times scattered as exponential ones. Solved exactly by mean
// value analysis.
//
// Sources: Reiser and Lavenberg, Mean-value analysis of closed multichain queuing networks, J. ACM
// 27 (1980); stations with several servers by their marginal probabilities, as in Bolch, Greiner,
// de Meer, Trivedi, Queueing Networks and Markov Chains, ch. 8 (forms from memory; checked against
// published networks in tests/supply/closed_queue_test.cpp).
#pragma once

#include <cstddef>
#include <vector>

namespace farwater::supply {

struct QueueClass {
    std::size_t customers = 0;
    double delay = 0.0;           // per round, with no queue: drives, thinking
    std::vector<double> demands;  // per round: service at each station
};

struct ClosedQueue {
    std::vector<std::size_t> servers;  // at each station, at least 1
    std::vector<QueueClass> classes;
};

struct QueueAnswer {
    std::vector<double> rounds;                // per class: rounds per unit of time, all customers
    std::vector<std::vector<double>> at;       // [class][station]: customers there, on average
    std::vector<std::vector<double>> staying;  // [class][station]: time there per round
};

// Exact for one class, and for several where each station serves them alike; else for servers that
// share their work among all who wait. Preconditions: times are finite and not negative, and every
// class with customers spends time somewhere. O(product of (customers + 1) x classes x stations x
// servers) time and memory.
QueueAnswer solve(const ClosedQueue& queue);

}  // namespace farwater::supply
