// One-way columns as road data spell them.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "analyzer/district/words.h"

namespace farwater::io {

enum class OneWaySign : std::uint8_t {
    both,
    forward,
    backward,
    alternating,  // both directions in turn, as signals or people let them
    reversible,   // one direction now, the other at another hour
    // What these mean depends on what else stands in the column:
    letter_f,   // from the line's start to its end, or false
    letter_t,   // to the line's start, or true
    letter_n,   // not one-way, or no traffic in either direction
    digit_two,  // against the line beside 0 and 1, or two-way beside 1
    unclear,    // says nothing that can be understood, or two things at once
};

// One word in any case; blanks, hyphens and underscores count alike. Precondition: not blank.
OneWaySign one_way_sign(std::string_view text);

// What stands in one column, record after record.
class OneWayColumn {
public:
    void saw(std::string_view text);  // blank ones say nothing

    // The direction that is meant; none = cannot be told from here, so nobody drives there. FT, TF
    // or B in the column make F, T and N codes of direction (N: no traffic); yes or true make them
    // truth values; F and T beside neither are not clear, N then is not one-way. A 2 is against the
    // line where the column has a 0.
    std::optional<OneWay> meaning(OneWaySign sign) const;

private:
    bool codes_ = false;  // FT, TF or B
    bool truths_ = false;
    bool zero_ = false;
};

}  // namespace farwater::io
