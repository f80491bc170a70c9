// What the fire draws: an optional history (the initial attack) up to the start, then one constant
// flow without end. Minutes, gallons, gpm.
#pragma once

#include <limits>
#include <span>

#include "analyzer/supply/run/moment.h"

namespace farwater::supply::run {

struct Knot {
    double minute = 0.0;
    double drawn = 0.0;  // gallons by then
    friend bool operator==(const Knot&, const Knot&) = default;
};

struct Draw {
    double start = 0.0;             // from here on the constant flow
    double flow = 1.0;              // positive
    double before = 0.0;            // gallons drawn by the start
    std::span<const Knot> history;  // ascending, straight between the knots; 0 before the first
};

// Gallons drawn by a minute of the history: 0 before its first knot, its last value after the end.
double drawn_in_history(std::span<const Knot> history, double minute);

// Gallons drawn by `minute`. O(1) after the start, O(log knots) before it.
inline double drawn_by(const Draw& draw, double minute) {
    return minute > draw.start ? draw.before + draw.flow * (minute - draw.start)
                               : drawn_in_history(draw.history, minute);
}

// Precondition: the history reaches `gallons`, which is positive.
double minute_in_history(std::span<const Knot> history, double gallons);

// The first moment by which `gallons` are drawn; minus infinity when that is nothing at all.
template <class Time>
Time when_drawn(const Draw& draw, double gallons) {
    if (gallons <= 0.0) {
        return Time::at_minute(-std::numeric_limits<double>::infinity());
    }
    if (gallons > draw.before) {
        return Time::after_drawing(gallons - draw.before, draw.flow, draw.start);
    }
    return Time::at_minute(minute_in_history(draw.history, gallons));
}

}  // namespace farwater::supply::run
