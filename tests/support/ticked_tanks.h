// A slow twin of the line of portable tanks: moves water in small steps of time and knows nothing
// but what is in each tank at the moment. Plain numbers: minutes, US gallons, gpm.
#pragma once

#include <cstddef>
#include <vector>

namespace farwater::slow {

enum class DumpedInto { front_first, last_tank };

struct TankLine {
    std::vector<double> holds;  // the draft tank first
    double siphon = 0.0;        // between two neighbours; one move at a time
    DumpedInto dumped = DumpedInto::front_first;
};

// Water that comes from `from` on at a rate, until the next one begins.
struct Inflow {
    double from = 0.0;
    double rate = 0.0;
};

struct TicksOfLine {
    double dry_at = 0.0;      // first minute in which the draft tank did not give the flow
    double stranded = 0.0;    // gallons in the other tanks then
    double overflowed = 0.0;  // gallons that came and found no room
};

// Draws `flow` from minute 0 until `until`, from tanks that are full at first; infinity where it
// never runs dry.
TicksOfLine ticked_line(const TankLine& line, const std::vector<Inflow>& coming, double flow,
                        double until, double tick);

// The most that is held for `duration` from full tanks while water comes at `rate` whenever there
// is room, by halves, up to `most`.
double ticked_flow_of_line(const TankLine& line, double rate, double duration, double most,
                           double tick);

}  // namespace farwater::slow
