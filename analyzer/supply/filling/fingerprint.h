// A fingerprint of everything that an answer rests on, in 128 bits: of two that differ in any
// number it is not the same but by a chance that nobody meets, so that an answer may be kept by it
// alone.
#pragma once

#include <bit>
#include <cstdint>

#include "analyzer/supply/incident.h"

namespace farwater::supply {

class Fingerprint {
public:
    // Bit by bit; the order counts.
    void add(std::uint64_t bits) {
        a_ = (a_ ^ bits) * 0x9e3779b97f4a7c15;  // 2^64 over the golden ratio
        a_ ^= a_ >> 32;
        b_ = (b_ + std::rotl(bits, 23)) * 0xd1342543de82ef95;  // another odd number
        b_ ^= b_ >> 29;
    }
    void add(double number) { add(std::bit_cast<std::uint64_t>(number)); }

    std::uint64_t place() const { return a_; }
    std::uint64_t rest() const { return b_; }
    friend bool operator==(const Fingerprint&, const Fingerprint&) = default;

private:
    std::uint64_t a_ = 0x243f6a8885a308d3;  // digits of pi: any two numbers would do
    std::uint64_t b_ = 0x13198a2e03707344;
};

// All that a run sees; who the tankers are and how well they are known is no part of it. O(tankers
// + fill sites).
Fingerprint fingerprint_of(const Incident& incident);

}  // namespace farwater::supply
