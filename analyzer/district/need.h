// What a property needs: the flow, for how long, by which rule, and how well that is known.
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <string_view>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

// What a method asks of a building and data may not tell.
enum class NeedInput : std::uint8_t { footprint, use, construction, storeys };
std::span<const std::string_view> words_of(NeedInput);

// Some of the inputs.
class NeedInputs {
public:
    constexpr NeedInputs() = default;
    constexpr NeedInputs(std::initializer_list<NeedInput> inputs) {
        for (const NeedInput input : inputs) {
            add(input);
        }
    }
    constexpr void add(NeedInput input) { bits_ |= bit(input); }
    constexpr bool has(NeedInput input) const { return (bits_ & bit(input)) != 0; }
    constexpr bool empty() const { return bits_ == 0; }
    friend constexpr NeedInputs operator&(NeedInputs a, NeedInputs b) {
        a.bits_ &= b.bits_;
        return a;
    }
    friend constexpr bool operator==(NeedInputs, NeedInputs) = default;

private:
    static constexpr std::uint8_t bit(NeedInput input) {
        return static_cast<std::uint8_t>(1U << static_cast<unsigned>(input));
    }
    std::uint8_t bits_ = 0;
};

// Where the flow comes from.
enum class NeedFrom : std::uint8_t { default_flow, own_column, method };
std::span<const std::string_view> words_of(NeedFrom);
inline std::string_view word(NeedFrom from) {
    return words_of(from)[static_cast<std::size_t>(from)];
}

struct Need {
    HeldFlow flow{};
    Duration duration;  // the state is judged over it
    // declared: the property's own, or what was missing is the district's word; else assumed.
    Evidence evidence = Evidence::assumed;
    NeedFrom from = NeedFrom::default_flow;
    NeedInputs defaulted;  // what took a default, whoever set it
    BuildingIndex worst;   // the building that the need and all distances go by; may be none
    float total_gal = 0;   // of the method, all in all; never divided by the flow; 0 = it has none
    HeldFlow dwelling{};   // of the worst dwelling by itself; 0 = there is none
};

}  // namespace farwater
