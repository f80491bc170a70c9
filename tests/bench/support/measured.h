// What a stretch of work costs: processor and wall seconds of this process, and its peak memory.
#pragma once

#include <algorithm>
#include <chrono>

#include <sys/resource.h>

namespace farwater::bench {

struct Seconds {
    double cpu = 0.0;  // of all threads
    double wall = 0.0;
};

inline double cpu_seconds() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

template <class Body>
Seconds seconds_of(Body body) {
    const double cpu = cpu_seconds();
    const auto begun = std::chrono::steady_clock::now();
    body();
    return {cpu_seconds() - cpu,
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count()};
}

// The least of some rounds: what the work takes when nothing else gets in its way.
template <class Body>
Seconds least_seconds(int rounds, Body body) {
    Seconds least = seconds_of(body);
    for (int round = 1; round < rounds; ++round) {
        const Seconds now = seconds_of(body);
        least = {std::min(least.cpu, now.cpu), std::min(least.wall, now.wall)};
    }
    return least;
}

// Resident memory in MiB, now and at its peak since forget_peak() (Linux: /proc/self).
double resident_mib();
double peak_mib();
void forget_peak();

}  // namespace farwater::bench
