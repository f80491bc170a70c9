// The lines of the claim sheet: what the department says, what the data show of it, and whether
// that is what the terms ask for.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

// What the data show of a claim.
enum class Shown : std::uint8_t {
    met,
    in_part,      // of some properties, or some sources
    not_met,      // the data show the contrary, or nothing that could meet it
    not_counted,  // the terms count nothing of the kind
    not_in_data,  // somebody else has to show it
};
std::span<const std::string_view> words_of(Shown);
inline std::string_view word(Shown shown) {
    return words_of(shown)[static_cast<std::size_t>(shown)];
}
std::string_view shown_in_words(Shown shown);

// How many of all.
inline Shown shown_of(std::size_t some, std::size_t all) {
    return some == 0 ? Shown::not_met : some < all ? Shown::in_part : Shown::met;
}

// Where the clock of the terms starts, "the alarm".
std::string_view clock_in_words(ClockStart clock);

struct Claim {
    std::string says;   // the department
    std::string shows;  // what the data show
    std::string signs;  // who stands for it
    Shown shown = Shown::not_in_data;
};
std::vector<Claim> claims(const Findings& findings);

// Those that the terms make of the department as a whole: pump, every day of the year, people,
// training, points. Only what the terms ask for.
std::vector<Claim> claims_of_department(const Findings& findings);

}  // namespace farwater::reports
