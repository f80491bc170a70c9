// Nanoseconds per answer of the incident run, for fleets of one to eight tankers, with the answers
// checked against the slow twin: a benchmark of a wrong answer is worth nothing. Counts processor
// time, so that a busy machine matters less.
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"

namespace {

using namespace farwater;
using namespace farwater::supply;

constexpr int rounds = 20'000;
constexpr double tanks[] = {2500, 2000, 3000, 1800, 2500, 2000, 3000, 2500};
constexpr double arrivals[] = {13.5, 16, 19, 24, 28, 31, 34, 38};

// Filled one after the other by 1,000 gpm; one slot, two portable tanks.
Incident fleet_of(int tankers) {
    Incident incident = ordinary_case();
    incident.fill_sites[0].flows = 1;
    incident.tankers.clear();
    for (int i = 0; i < tankers; ++i) {
        incident.tankers.push_back(usual_tanker(tanks[i], arrivals[i]));
    }
    return incident;
}

// Mean nanoseconds of answer(), which is called `rounds` times.
template <class Answer>
double nanoseconds(Answer answer) {
    const std::clock_t begun = std::clock();
    for (int round = 0; round < rounds; ++round) {
        answer();
    }
    return static_cast<double>(std::clock() - begun) * (1e9 / CLOCKS_PER_SEC) / rounds;
}

bool as_the_twin_says(const Incident& incident, HeldFlow flow) {
    constexpr int most = 20'000;
    const int wanted =
        slow::slow_sustained_flow(slow_of(incident), in_minutes(ordinary_window.start),
                                  in_minutes(ordinary_window.duration), most);
    if (in_tenths(flow) != wanted) {
        std::printf("%d tenths, but the twin says %d\n", in_tenths(flow), wanted);
    }
    return in_tenths(flow) == wanted;
}

bool bench(int tankers) {
    const Incident fixed = fleet_of(tankers);
    Incident open = fixed;
    open.fill_sites[0].flows.reset();
    Incident attacked = fixed;
    attacked.initial_attack = {gpm(200), minutes(14)};
    const HeldFlow flow = sustained_flow(fixed, ordinary_window);

    volatile int sink = 0;
    const auto sustained = [&](const Incident& incident) {
        return nanoseconds([&] { sink = in_tenths(sustained_flow(incident, ordinary_window)); });
    };
    const double held_time = nanoseconds([&] { sink = holds(fixed, ordinary_window, flow); });
    const double start_time = nanoseconds([&] {
        const auto start = earliest_start(attacked, held(gpm(250)), minutes(120), minutes(87.5));
        sink = start.has_value();
    });
    const double clocks_time =
        nanoseconds([&] { sink = first_minutes(attacked, ordinary_window).dry > Duration{}; });
    std::printf("%7d %9.1f %9.0f %9.0f %9.0f %9.0f %9.0f %9.0f\n", tankers, in_gpm(flow_of(flow)),
                sustained(fixed), sustained(open), sustained(attacked), held_time, start_time,
                clocks_time);
    return as_the_twin_says(fixed, flow);
}

}  // namespace

int main() {
    std::printf(
        "nanoseconds; two ways of filling in `open`, an initial attack in the last columns\n");
    std::printf("tankers       gpm sustained      open  attacked     holds  earliest    clocks\n");
    bool right = true;
    for (int tankers = 1; tankers <= 8; ++tankers) {
        right &= bench(tankers);
    }
    return right ? EXIT_SUCCESS : EXIT_FAILURE;
}
