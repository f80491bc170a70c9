// Random numbers that are the same on every machine: integers only, and doubles made of 53 random
// bits. The generator is SplitMix64 (Steele, Lea, Flood 2014, "Fast splittable pseudorandom number
// generators"; constants from memory).
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>

namespace farwater::sample {

// A well mixed 64-bit value of `value`; the same for the same input.
constexpr std::uint64_t mixed(std::uint64_t value) {
    value += 0x9e3779b97f4a7c15U;
    value = (value ^ (value >> 30U)) * 0xbf58476d1ce4e5b9U;
    value = (value ^ (value >> 27U)) * 0x94d049bb133111ebU;
    return value ^ (value >> 31U);
}

constexpr std::uint64_t mixed(std::uint64_t a, std::uint64_t b) { return mixed(mixed(a) ^ b); }
constexpr std::uint64_t mixed(std::uint64_t a, std::uint64_t b, std::uint64_t c) {
    return mixed(mixed(a, b) ^ c);
}

// 53 bits of `bits` as a number in [0, 1).
constexpr double unit_of(std::uint64_t bits) {
    return static_cast<double>(bits >> 11U) * (1.0 / 9007199254740992.0);
}

class Random {
public:
    constexpr explicit Random(std::uint64_t seed) : state_(seed) {}

    constexpr std::uint64_t next() {
        const std::uint64_t value = mixed(state_);
        state_ += 0x9e3779b97f4a7c15U;
        return value;
    }
    constexpr double unit() { return unit_of(next()); }
    constexpr double between(double low, double high) { return low + (high - low) * unit(); }
    constexpr bool chance(double probability) { return unit() < probability; }
    // A whole number from `low` to `high`, both included. Precondition: low <= high.
    constexpr int whole(int low, int high) {
        const auto range = static_cast<std::uint64_t>(static_cast<std::int64_t>(high) - low + 1);
        return low + static_cast<int>(((next() >> 32U) * range) >> 32U);
    }
    // An index below `size`. Precondition: size > 0.
    constexpr std::size_t index(std::size_t size) {
        return static_cast<std::size_t>(((next() >> 32U) * static_cast<std::uint64_t>(size)) >>
                                        32U);
    }
    // An independent stream, so that a change in one part does not shift the others.
    constexpr Random fork(std::uint64_t tag) const { return Random(mixed(state_, tag)); }

private:
    std::uint64_t state_;
};

template <class Value>
struct Choice {
    double below;  // chosen for draws below this and not below an earlier choice's
    Value value;
};

// Precondition: at least one choice; the last one also takes all larger draws.
template <class Value>
constexpr Value choose(double draw, std::initializer_list<Choice<Value>> choices) {
    for (const Choice<Value>& choice : choices) {
        if (draw < choice.below) {
            return choice.value;
        }
    }
    return (choices.end() - 1)->value;
}

}  // namespace farwater::sample
