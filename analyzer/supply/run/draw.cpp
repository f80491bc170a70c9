#include "analyzer/supply/run/draw.h"

#include <algorithm>

namespace farwater::supply::run {

double minute_in_history(std::span<const Knot> history, double gallons) {
    const auto reached = std::ranges::lower_bound(history, gallons, {}, &Knot::drawn);
    if (reached == history.begin()) {
        return reached->minute;
    }
    const Knot low = *(reached - 1);
    const double share = (gallons - low.drawn) / (reached->drawn - low.drawn);
    return low.minute + share * (reached->minute - low.minute);
}

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

}  // namespace farwater::supply::run
