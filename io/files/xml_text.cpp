#include "io/files/xml_text.h"

#include <algorithm>

#include "io/files/letters.h"

namespace farwater::io {
namespace {

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
