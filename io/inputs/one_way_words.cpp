#include "io/inputs/one_way_words.h"

#include <algorithm>
#include <array>
#include <string>

#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

enum class Family : std::uint8_t { none, code, truth };

struct OneWayWord {
    std::string_view word;  // lower case, blanks between words
    OneWaySign sign;
    Family family = Family::none;
};

using enum OneWaySign;

// yes, no, -1, reversible and alternating: OpenStreetMap wiki, Key:oneway. B, FT and TF:
// NENA-STA-006.2-2022, domain OneWay of layer RoadCenterLine. The rest: common practice, no source.
constexpr std::array words{
    OneWayWord{"both", both},
    OneWayWord{"forward", forward},
    OneWayWord{"backward", backward},
    OneWayWord{"no", both, Family::truth},
    OneWayWord{"false", both, Family::truth},
    OneWayWord{"yes", forward, Family::truth},
    OneWayWord{"y", forward, Family::truth},
    OneWayWord{"true", forward, Family::truth},
    OneWayWord{"0", both},
    OneWayWord{"1", forward},
    OneWayWord{"2", digit_two},
    OneWayWord{"-1", backward},
    OneWayWord{"reverse", backward},
    OneWayWord{"reversed", backward},
    OneWayWord{"against", backward},
    OneWayWord{"along", forward},
    OneWayWord{"reversible", reversible},
    OneWayWord{"alternating", alternating},
    OneWayWord{"b", both, Family::code},
    OneWayWord{"ft", forward, Family::code},
    OneWayWord{"tf", backward, Family::code},
    OneWayWord{"from to", forward, Family::code},
    OneWayWord{"to from", backward, Family::code},
    OneWayWord{"f", letter_f},
    OneWayWord{"t", letter_t},
    OneWayWord{"n", letter_n},
    OneWayWord{"one way", forward},
    OneWayWord{"oneway", forward},
    OneWayWord{"1 way", forward},
    OneWayWord{"two way", both},
    OneWayWord{"twoway", both},
    OneWayWord{"2 way", both},
    OneWayWord{"both ways", both},
    OneWayWord{"both directions", both},
    OneWayWord{"not one way", both},
    OneWayWord{"none", both},
};

// Lower case, one blank for each run of blanks, underscores and hyphens between letters.
std::string plain(std::string_view text) {
    std::string plain;
    for (const char c : lower_case(trimmed(text))) {
        const bool gap = c == ' ' || c == '_' || (c == '-' && !plain.empty());
        if (!gap) {
            plain += c;
        } else if (!plain.empty() && plain.back() != ' ') {
            plain += ' ';
        }
    }
    return plain;
}

const OneWayWord* find_word(std::string_view text) {
    const std::string wanted = plain(text);
    const auto* found = std::find_if(words.begin(), words.end(),
                                     [&](const OneWayWord& row) { return row.word == wanted; });
    return found == words.end() ? nullptr : found;
}

}  // namespace

OneWaySign one_way_sign(std::string_view text) {
    const OneWayWord* word = find_word(text);
    if (word != nullptr) {
        return word->sign;
    }
    // A number column may show 1 as 1.0.
    const std::optional<double> number = parse_number(text);
    const bool whole =
        number && (*number == 0.0 || *number == 1.0 || *number == 2.0 || *number == -1.0);
    return whole ? one_way_sign(std::to_string(static_cast<int>(*number))) : unclear;
}

void OneWayColumn::saw(std::string_view text) {
    const OneWayWord* word = find_word(text);
    const std::optional<double> number = parse_number(text);
    const Family family = word != nullptr ? word->family : Family::none;
    codes_ = codes_ || family == Family::code;
    truths_ = truths_ || family == Family::truth;
    zero_ = zero_ || (number && *number == 0.0);
}

std::optional<OneWay> OneWayColumn::meaning(OneWaySign sign) const {
    const auto only_if = [](bool sure, OneWay meant) {
        return sure ? std::optional(meant) : std::nullopt;
    };
    switch (sign) {
        case both:
        case alternating:
            return OneWay::both;
        case forward:
            return OneWay::forward;
        case backward:
            return OneWay::backward;
        case letter_f:
            return only_if(codes_ != truths_, codes_ ? OneWay::forward : OneWay::both);
        case letter_t:
            return only_if(codes_ != truths_, codes_ ? OneWay::backward : OneWay::forward);
        case letter_n:
            return only_if(!codes_, OneWay::both);
        case digit_two:
            return only_if(zero_, OneWay::backward);
        case reversible:
        case unclear:
            return std::nullopt;
    }
    return std::nullopt;
}

}  // namespace farwater::io
