#include "tests/support/ticked_tanks.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace farwater::slow {
namespace {

// What comes in one step, into the tanks in the order in which they are dumped into.
double dump(const TankLine& line, std::vector<double>& in, double gallons) {
    const std::size_t tanks = line.holds.size();
    for (std::size_t i = 0; i < tanks; ++i) {
        const std::size_t tank = line.dumped == DumpedInto::front_first ? i : tanks - 1 - i;
        if (line.dumped == DumpedInto::last_tank && i > 0) {
            break;
        }
        const double placed = std::min(gallons, line.holds[tank] - in[tank]);
        in[tank] += placed;
        gallons -= placed;
    }
    return gallons;
}

// One move in a step: from the tank nearest to the draft tank that has water and room before it.
void move(std::vector<double>& in, const std::vector<double>& holds, double gallons) {
    for (std::size_t tank = 1; tank < in.size(); ++tank) {
        const double lifted = std::min({gallons, in[tank], holds[tank - 1] - in[tank - 1]});
        if (lifted > 1e-9) {
            in[tank] -= lifted;
            in[tank - 1] += lifted;
            return;
        }
    }
}

double coming_at(const std::vector<Inflow>& coming, double time) {
    double rate = 0.0;
    for (const Inflow& one : coming) {
        rate = one.from <= time + 1e-9 ? one.rate : rate;
    }
    return rate;
}

}  // namespace

TicksOfLine ticked_line(const TankLine& line, const std::vector<Inflow>& coming, double flow,
                        double until, double tick) {
    std::vector<double> in = line.holds;
    TicksOfLine ticks{.dry_at = std::numeric_limits<double>::infinity()};
    for (double time = 0.0; time < until; time += tick) {
        ticks.overflowed += dump(line, in, coming_at(coming, time) * tick);
        move(in, line.holds, line.siphon * tick);
        in[0] -= flow * tick;
        if (in[0] < -1e-9) {
            ticks.dry_at = time;
            ticks.stranded = std::accumulate(in.begin() + 1, in.end(), 0.0);
            return ticks;
        }
    }
    return ticks;
}

double ticked_flow_of_line(const TankLine& line, double rate, double duration, double most,
                           double tick) {
    double holds = 0.0;
    double fails = most;
    if (ticked_line(line, {{0.0, rate}}, most, duration, tick).dry_at > duration) {
        return most;
    }
    while (fails - holds > 0.05) {
        const double tried = (holds + fails) / 2.0;
        const bool held = ticked_line(line, {{0.0, rate}}, tried, duration, tick).dry_at > duration;
        (held ? holds : fails) = tried;
    }
    return holds;
}

}  // namespace farwater::slow
