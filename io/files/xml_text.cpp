#include "io/files/xml_text.h"

#include <algorithm>

namespace farwater::io {
namespace {

// Length of the valid UTF-8 sequence at the start of `text`; 0 where there is none (RFC 3629).
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

// U+FFFE, U+FFFF and control characters but tab and line feed.
bool is_no_character(std::string_view letter) {
    const auto first = static_cast<unsigned char>(letter[0]);
    return letter == "\xEF\xBF\xBE" || letter == "\xEF\xBF\xBF" || first == 0x7F ||
           (first < 0x20 && first != '\t' && first != '\n');
}

}  // namespace

std::string xml_letters(std::string_view text) {
    std::string letters;
    for (text = text.substr(0, text.find('\0')); !text.empty();) {
        const std::size_t length = letter_length(text);
        if (length == 0) {
            letters += '?';
        } else if (!is_no_character(text.substr(0, length))) {
            letters += text.substr(0, length);
        }
        text.remove_prefix(std::max<std::size_t>(1, length));
    }
    return letters;
}

std::string xml_escaped(std::string_view text) {
    std::string escaped;
    for (const char letter : xml_letters(text)) {
        switch (letter) {
            case '&':
                escaped += "&amp;";
                break;
            case '<':
                escaped += "&lt;";
                break;
            case '>':
                escaped += "&gt;";
                break;
            case '"':
                escaped += "&quot;";
                break;
            case '\'':
                escaped += "&apos;";
                break;
            default:
                escaped += letter;
        }
    }
    return escaped;
}

}  // namespace farwater::io
