#include "io/records/trade_words.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

struct TradeWords {
    std::string_view ours;
    std::array<std::string_view, 8> theirs;  // parted by one blank; empty ones at the end
};

// A truck that carries water and pumps is a tanker where its name says both: as an engine it would
// draft, but bring nothing. Common practice, no source.
constexpr std::array trade_rows{
    TradeWords{"engine", {"pumper"sv, "engine pumper"sv, "pumper engine"sv, "fire engine"sv}},
    TradeWords{"tanker",
               {"tender"sv, "water tender"sv, "water tanker"sv, "tanker pumper"sv,
                "pumper tanker"sv, "tender pumper"sv, "pumper tender"sv}},
    TradeWords{"hydrant", {"fire hydrant"sv}},
    TradeWords{"draft_site",
               {"pond"sv, "lake"sv, "river"sv, "stream"sv, "creek"sv, "pool"sv, "swimming pool"sv,
                "farm pond"sv}},
    TradeWords{"cistern", {"tank"sv, "water tank"sv, "underground tank"sv}},
};

std::string parted_by_blanks(std::string_view text) {
    std::string plain;
    for (const char letter : lower_case(trimmed(text))) {
        const bool parts = " -_/\t"sv.find(letter) != std::string_view::npos;
        if (!parts) {
            plain += letter;
        } else if (!plain.empty() && plain.back() != ' ') {
            plain += ' ';
        }
    }
    return plain;
}

bool is_of(WordList words, std::string_view ours) {
    return words != nullptr && std::ranges::find(words(), ours) != words().end();
}

}  // namespace

std::string_view trade_word(std::string_view theirs, WordList words) {
    const std::string plain = parted_by_blanks(theirs);
    for (const TradeWords& row : trade_rows) {
        const bool called =
            !plain.empty() && std::ranges::find(row.theirs, plain) != row.theirs.end();
        if (called && is_of(words, row.ours)) {
            return row.ours;
        }
    }
    return {};
}

std::string trade_words_told(WordList words) {
    std::string told;
    for (const TradeWords& row : trade_rows) {
        if (is_of(words, row.ours)) {
            const auto end = std::ranges::find(row.theirs, std::string_view{});
            told += fmt::format("{}{} mean{} {}", told.empty() ? "" : "; ",
                                fmt::join(row.theirs.begin(), end, ", "),
                                end - row.theirs.begin() == 1 ? "s" : "", row.ours);
        }
    }
    return told;
}

}  // namespace farwater::io
