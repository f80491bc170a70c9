#include "analyzer/supply/run/draw.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace farwater::supply::run {

namespace {

constexpr double never_too_early = -std::numeric_limits<double>::infinity();

// Precondition: the history reaches `gallons`, which is positive.
double minute_in_history(std::span<const Knot> history, double gallons) {
    const auto reached = std::ranges::lower_bound(history, gallons, {}, &Knot::drawn);
    if (reached == history.begin()) {
        return reached->minute;
    }
    const Knot low = *(reached - 1);
    const double share = (gallons - low.drawn) / (reached->drawn - low.drawn);
    return low.minute + share * (reached->minute - low.minute);
}

}  // namespace

double drawn_in_history(std::span<const Knot> history, double minute) {
    const auto next = std::ranges::upper_bound(history, minute, {}, &Knot::minute);
    if (next == history.begin()) {
        return 0.0;
    }
    const Knot low = *(next - 1);
    if (next == history.end()) {
        return low.drawn;
    }
    const double share = (minute - low.minute) / (next->minute - low.minute);
    return low.drawn + share * (next->drawn - low.drawn);
}

Moment when_drawn(const Draw& draw, double gallons) {
    if (gallons <= 0.0) {
        return at_minute(never_too_early);
    }
    if (gallons > draw.before) {
        const double more = gallons - draw.before;
        return {draw.start, more, draw.start + more / draw.flow};
    }
    return at_minute(minute_in_history(draw.history, gallons));
}

}  // namespace farwater::supply::run
