// Published tables that go up in steps: which step a value is on, and rounding to a multiple.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

namespace farwater::demand {

// The entry of the first bound that `value` does not pass; the last entry where it passes all.
// `entries` has one more than `bounds`, which ascend; 0 where a list is empty.
inline double entry_up_to(const std::vector<double>& bounds, const std::vector<double>& entries,
                          double value) {
    std::size_t step = 0;
    while (step < bounds.size() && value > bounds[step]) {
        ++step;
    }
    return step < entries.size() ? entries[step] : 0.0;
}

// The same where a bound itself belongs to the next step.
inline double entry_below(const std::vector<double>& bounds, const std::vector<double>& entries,
                          double value) {
    std::size_t step = 0;
    while (step < bounds.size() && value >= bounds[step]) {
        ++step;
    }
    return step < entries.size() ? entries[step] : 0.0;
}

// To the nearest multiple, halves up. Precondition: step > 0.
inline double rounded_to(double value, double step) {
    return std::floor(value / step + 0.5) * step;
}

}  // namespace farwater::demand
