#include "io/records/not_known.h"

#include <algorithm>
#include <array>
#include <string>

#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// Common practice, no source.
constexpr std::array not_known_words{
    "n/a"sv,     "na"sv,    "n.a."sv,      "n.a"sv,           "#n/a"sv,
    "unknown"sv, "unk"sv,   "not known"sv, "not available"sv, "not tested"sv,
    "null"sv,    "tbd"sv,   "tba"sv,       "pending"sv,       "to be determined"sv,
    "\u2013"sv,  "\u2014"sv};

// "-", "--", "?", "???", "."
bool is_filler(std::string_view text) {
    return text.find_first_not_of(text.front()) == std::string_view::npos &&
           "-?."sv.find(text.front()) != std::string_view::npos;
}

}  // namespace

bool says_not_known(std::string_view text) {
    const std::string word = lower_case(trimmed(text));
    return word.empty() || is_filler(word) ||
           std::ranges::find(not_known_words, word) != not_known_words.end();
}

}  // namespace farwater::io
