// Whole numbers and drive times that are nearly always small, where there are millions of them: two
// bytes each as long as all of a list fit, four once one does not. What is read is what was added.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater {

class SmallNumbers {
public:
    std::size_t size() const { return large_.empty() ? small_.size() : large_.size(); }
    std::uint32_t operator[](std::size_t i) const { return large_.empty() ? small_[i] : large_[i]; }

    // The first number beyond two bytes moves all that are there, O(n).
    void push_back(std::uint32_t number) {
        if (large_.empty() && number <= UINT16_MAX) {
            small_.push_back(static_cast<std::uint16_t>(number));
            return;
        }
        if (large_.empty()) {
            large_.assign(small_.begin(), small_.end());
            small_ = {};
        }
        large_.push_back(number);
    }
    // Room for so many in all.
    void reserve(std::size_t count) {
        large_.empty() ? small_.reserve(count) : large_.reserve(count);
    }

private:
    std::vector<std::uint16_t> small_;
    std::vector<std::uint32_t> large_;  // all of them, once there is a large one
};

// Two bytes reach as far as 109 minutes. Precondition: no time is less than nothing.
class SmallTimes {
public:
    std::size_t size() const { return numbers_.size(); }
    DriveTime operator[](std::size_t i) const {
        const std::uint32_t number = numbers_[i];
        return number == never ? no_time : tenths_of_second(static_cast<std::int32_t>(number - 1));
    }
    void push_back(DriveTime time) {
        numbers_.push_back(reachable(time) ? static_cast<std::uint32_t>(in_tenths(time)) + 1
                                           : never);
    }
    void reserve(std::size_t count) { numbers_.reserve(count); }

private:
    static constexpr std::uint32_t never = 0;
    SmallNumbers numbers_;  // tenths of a second and one more
};

}  // namespace farwater
