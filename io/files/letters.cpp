#include "io/files/letters.h"

#include <algorithm>
#include <array>

namespace farwater::io {
namespace {

// The letters of the bytes 80 to 9F; those above are the same as in Unicode.
constexpr std::array<char16_t, 32> windows_1252{
    0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD, 0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

// A letter of at most 16 bits.
void append_letter(std::string& text, unsigned letter) {
    if (letter < 0x80) {
        text += static_cast<char>(letter);
    } else if (letter < 0x800) {
        text += static_cast<char>(0xC0U | (letter >> 6U));
        text += static_cast<char>(0x80U | (letter & 0x3FU));
    } else {
        text += static_cast<char>(0xE0U | (letter >> 12U));
        text += static_cast<char>(0x80U | ((letter >> 6U) & 0x3FU));
        text += static_cast<char>(0x80U | (letter & 0x3FU));
    }
}

struct LetterRange {
    char32_t first, last;
};

// Ordered.
constexpr std::array<LetterRange, 16> never_seen{{{0x0000, 0x001F},
                                                  {0x007F, 0x009F},
                                                  {0x00AD, 0x00AD},
                                                  {0x034F, 0x034F},
                                                  {0x061C, 0x061C},
                                                  {0x115F, 0x1160},
                                                  {0x17B4, 0x17B5},
                                                  {0x180E, 0x180E},
                                                  {0x200B, 0x200F},
                                                  {0x202A, 0x202E},
                                                  {0x2060, 0x206F},
                                                  {0x3164, 0x3164},
                                                  {0xFEFF, 0xFEFF},
                                                  {0xFFA0, 0xFFA0},
                                                  {0xFFF0, 0xFFFB},
                                                  {0xE0000, 0xE00FF}}};

// Of one valid UTF-8 sequence.
char32_t code_point(std::string_view letter) {
    constexpr std::array<unsigned, 5> lead_bits{0, 0x7F, 0x1F, 0x0F, 0x07};
    char32_t code = static_cast<unsigned char>(letter[0]) & lead_bits[letter.size()];
    for (const char byte : letter.substr(1)) {
        code = (code << 6U) | (static_cast<unsigned char>(byte) & 0x3FU);
    }
    return code;
}

bool is_never_seen(char32_t code) {
    const auto* range = std::ranges::lower_bound(never_seen, code, {}, &LetterRange::last);
    return range != never_seen.end() && range->first <= code;
}

// Line ends of text and of Unicode, and tabs.
bool is_break(char32_t code) {
    return (code >= 0x09 && code <= 0x0D) || code == 0x85 || code == 0x2028 || code == 0x2029;
}

bool is_ascii(char byte) { return static_cast<unsigned char>(byte) < 0x80; }

}  // namespace

// NOLINTNEXTLINE(readability-function-cognitive-complexity): the standard's table of ranges
std::size_t letter_length(std::string_view text) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
    };
    const auto follows = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
        return byte(i) >= low && byte(i) <= high;
    };
    const unsigned lead = byte(0);
    if (lead < 0x80) {
        return 1;
    }
    if (lead >= 0xC2 && lead <= 0xDF) {
        return follows(1) ? 2 : 0;
    }
    if (lead >= 0xE0 && lead <= 0xEF) {
        const bool second = follows(1, lead == 0xE0 ? 0xA0 : 0x80, lead == 0xED ? 0x9F : 0xBF);
        return second && follows(2) ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const bool second = follows(1, lead == 0xF0 ? 0x90 : 0x80, lead == 0xF4 ? 0x8F : 0xBF);
        return second && follows(2) && follows(3) ? 4 : 0;
    }
    return 0;
}

bool is_utf8(std::string_view text) {
    const auto first = std::ranges::find_if_not(text, is_ascii);
    text.remove_prefix(static_cast<std::size_t>(first - text.begin()));
    while (!text.empty()) {
        const std::size_t length = letter_length(text);
        if (length == 0) {
            return false;
        }
        text.remove_prefix(length);
    }
    return true;
}

std::string as_utf8(std::string_view text) {
    if (is_utf8(text)) {
        return std::string(text);
    }
    std::string letters;
    for (const char byte : text) {
        const auto code = static_cast<unsigned char>(byte);
        const bool special = code >= 0x80 && code < 0xA0;
        append_letter(letters, special ? windows_1252[code - 0x80U] : code);
    }
    return letters;
}

bool is_plain_ascii(std::string_view text) {
    return std::ranges::all_of(text, [](char c) { return c >= 0x20 && c < 0x7F; });
}

SeenLetters seen_letters(std::string_view text) {
    SeenLetters seen;
    bool broken = false;
    while (!text.empty()) {
        const std::string_view letter =
            text.substr(0, std::max<std::size_t>(1, letter_length(text)));
        const char32_t code = code_point(letter);
        text.remove_prefix(letter.size());
        if (is_break(code)) {
            broken = true;
            continue;
        }
        if (is_never_seen(code)) {
            seen.left_out = true;
            continue;
        }
        seen.text += broken ? " " : "";
        seen.text += letter;
        broken = false;
    }
    return seen;
}

std::string without_hidden(std::string_view text) {
    std::string seen;
    while (!text.empty()) {
        const std::string_view letter =
            text.substr(0, std::max<std::size_t>(1, letter_length(text)));
        const char32_t code = code_point(letter);
        seen += is_break(code) || !is_never_seen(code) ? letter : std::string_view();
        text.remove_prefix(letter.size());
    }
    return seen;
}

std::string first_letters(std::string_view text, std::size_t most) {
    std::size_t end = 0;
    for (std::size_t count = 0; count < most && end < text.size(); ++count) {
        end += std::max<std::size_t>(1, letter_length(text.substr(end)));
    }
    return std::string(text.substr(0, end)) + (end < text.size() ? " ..." : "");
}

}  // namespace farwater::io
