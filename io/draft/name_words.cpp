#include "io/draft/name_words.h"

#include <algorithm>
#include <cctype>

#include "io/draft/name_spellings.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_spellings.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr std::size_t shortest_parted = 4;        // letters of a run that is looked into
constexpr std::size_t letters_of_shapefile = 10;  // dBASE III, field descriptor: 11 bytes with 0

// A word or a unit that needs no other to be told.
bool is_piece(std::string_view piece) {
    return piece.size() > 1 &&
           (spelled_words().contains(piece) || is_plain_unit(piece) || piece == "in");
}

// The run as pieces, as few as can be; empty where something would be left over.
std::vector<std::string> parted_run(const std::string& run) {
    const std::size_t none = run.size() + 1;
    std::vector<std::size_t> pieces(run.size() + 1, none);  // up to that letter
    std::vector<std::size_t> last(run.size() + 1, 0);       // where the last of them begins
    pieces[0] = 0;
    for (std::size_t end = 2; end <= run.size(); ++end) {
        for (std::size_t begin = 0; begin + 1 < end; ++begin) {
            if (pieces[begin] + 1 < pieces[end] &&
                is_piece(std::string_view(run).substr(begin, end - begin))) {
                pieces[end] = pieces[begin] + 1;
                last[end] = begin;
            }
        }
    }
    std::vector<std::string> parts;
    for (std::size_t end = run.size(); pieces.back() < none && end > 0; end = last[end]) {
        parts.push_back(run.substr(last[end], end - last[end]));
    }
    std::ranges::reverse(parts);
    return parts;
}

bool is_lower(char c) { return std::islower(static_cast<unsigned char>(c)) != 0; }
bool is_upper(char c) { return std::isupper(static_cast<unsigned char>(c)) != 0; }
bool is_figure(char c) { return c >= '0' && c <= '9'; }
bool is_letter_of_name(char c) {
    return is_lower(c) || is_upper(c) || static_cast<unsigned char>(c) >= 0x80;
}

// Units whose sign parts a name otherwise, and signs that stand for a word.
std::string with_signs_told(std::string_view name) {
    std::string text(name);
    for (const auto& [sign, word] : {std::pair{"km/h"sv, " kmh"sv},
                                     {"KM/H"sv, " kmh"sv},
                                     {"l/min"sv, " lpm"sv},
                                     {"L/min"sv, " lpm"sv},
                                     {"l/s"sv, " lps"sv},
                                     {"#"sv, " number "sv},
                                     {"\""sv, " in "sv}}) {
        for (auto at = text.find(sign); at != std::string::npos; at = text.find(sign, at + 1)) {
            text.replace(at, sign.size(), word);
        }
    }
    return text;
}

bool parts(const std::string& text, std::size_t at) {
    const char before = text[at - 1];
    const char here = text[at];
    const bool next_is_lower = at + 1 < text.size() && is_lower(text[at + 1]);
    return (is_lower(before) && is_upper(here)) ||
           (is_upper(before) && is_upper(here) && next_is_lower) ||
           (is_figure(before) != is_figure(here));
}

std::vector<std::string> tokens_of(std::string_view name) {
    const std::string text = with_signs_told(name);
    std::vector<std::string> tokens;
    bool within = false;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (!is_letter_of_name(text[at]) && !is_figure(text[at])) {
            within = false;
            continue;
        }
        if (!within || parts(text, at)) {
            tokens.emplace_back();
        }
        tokens.back() += text[at];
        within = true;
    }
    for (std::string& token : tokens) {
        token = lower_case(token);
    }
    return tokens;
}

// "PINs" or "GPMs" are no words of two; a run that is one word stays whole.
std::vector<std::string> parted(const std::vector<std::string>& tokens) {
    std::vector<std::string> all;
    for (const std::string& token : tokens) {
        const bool known = spelled_words().contains(token) || !unit_spelled(token, {}).empty();
        std::vector<std::string> pieces;
        if (!known && token.size() >= shortest_parted) {
            pieces = parted_run(token);
        }
        if (pieces.empty()) {
            pieces.push_back(token);
        }
        std::ranges::move(pieces, std::back_inserter(all));
    }
    return all;
}

// The only word that begins so; empty where there are two, or none.
std::string_view word_beginning(const std::string& cut) {
    std::string_view found;
    for (auto at = spelled_words().lower_bound(cut);
         at != spelled_words().end() && at->first.starts_with(cut); ++at) {
        if (!found.empty() && found != at->second) {
            return {};
        }
        found = at->second;
    }
    return found;
}

std::string_view take_unit(std::vector<std::string>& tokens) {
    if (tokens.empty()) {
        return {};
    }
    const bool at_end = is_last_unit(tokens.back());
    const auto from_end = std::ranges::find_if(tokens.rbegin(), tokens.rend(), is_plain_unit);
    if (!at_end && from_end == tokens.rend()) {
        return {};
    }
    const auto at = at_end ? std::prev(tokens.end()) : std::prev(from_end.base());
    const std::string_view unit = unit_spelled(*at, {});
    if (!unit.empty()) {
        tokens.erase(at);
    }
    return unit;
}

}  // namespace

bool NameWords::has(std::string_view word) const {
    return std::ranges::binary_search(words, word, std::less<>());
}

NameWords words_of_name(std::string_view name) {
    std::vector<std::string> tokens = parted(tokens_of(name));
    NameWords told;
    told.unit = take_unit(tokens);
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const auto known = spelled_words().find(tokens[i]);
        std::string word = known != spelled_words().end() ? std::string(known->second)
                           : tokens[i] == "min"           ? "minimum"
                                                          : tokens[i];
        const bool may_be_cut = i + 1 == tokens.size() && name.size() == letters_of_shapefile &&
                                known == spelled_words().end() && tokens[i].size() > 1;
        if (may_be_cut && !word_beginning(tokens[i]).empty()) {
            word = word_beginning(tokens[i]);
        }
        if (!word.empty()) {
            told.words.push_back(std::move(word));
        }
    }
    std::ranges::sort(told.words);
    told.words.erase(std::unique(told.words.begin(), told.words.end()), told.words.end());
    return told;
}

}  // namespace farwater::io
