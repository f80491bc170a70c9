#include "reports/text/plain_text.h"

#include <algorithm>

namespace farwater::reports {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

// Length of the valid UTF-8 sequence at the start of `text`; 0 where there is none (RFC 3629).
// NOLINTNEXTLINE(readability-function-cognitive-complexity): the standard's table of ranges
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) {
        return 1;
    }
    const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                               : lead >= 0xE0 && lead <= 0xEF ? 3
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                              : 0;
    if (length == 0 || text.size() < length) {
        return 0;
    }
    const bool continues =
        std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(length),
                    [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; });
    const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
    const bool outside = (lead == 0xED && byte(1) >= 0xA0) || (lead == 0xF4 && byte(1) >= 0x90);
    return continues && !overlong && !outside ? length : 0;
}

constexpr std::size_t most_of_name = 90;

// Precondition: UTF-8, and more letters than that.
std::string first_of(std::string_view text, std::size_t most) {
    std::size_t end = 0;
    for (std::size_t count = 0; end < text.size(); ++end) {
        const bool begins = (static_cast<unsigned char>(text[end]) & 0xC0U) != 0x80U;
        if (begins && ++count > most) {
            break;
        }
    }
    return std::string(text.substr(0, end));
}

}  // namespace

std::string mended(std::string_view text) {
    std::string safe;
    safe.reserve(text.size());
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        const auto first = static_cast<unsigned char>(text[0]);
        const bool control =
            length == 1 && (first == 0x7F || (first < 0x20 && text[0] != '\t' && text[0] != '\n'));
        safe += length == 0 || control ? replacement : text.substr(0, length);
        text.remove_prefix(std::max<std::size_t>(1, length));
    }
    return safe;
}

std::string on_one_line(std::string_view name) {
    std::string text = mended(name);
    std::ranges::replace(text, '\t', ' ');
    std::ranges::replace(text, '\n', ' ');
    return text;
}

std::size_t letters(std::string_view words) {
    return static_cast<std::size_t>(std::ranges::count_if(
        words, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string name_words(std::string_view name) {
    std::string text = on_one_line(name);
    return letters(text) <= most_of_name ? text : first_of(text, most_of_name) + "...";
}

std::string with_names_cut(std::string_view text) {
    if (letters(text) <= most_of_name) {
        return std::string(text);
    }
    std::string cut;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \t\n"), text.size());
        const std::string_view word = text.substr(0, end);
        cut += letters(word) <= most_of_name ? std::string(word)
                                             : first_of(word, most_of_name) + "...";
        cut += end < text.size() ? text.substr(end, 1) : std::string_view{};
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return cut;
}

std::string padded(std::string_view name, std::size_t width) {
    std::string text = name_words(name);
    const std::size_t length = letters(text);
    text.append(length < width ? width - length : 0, ' ');
    return text;
}

}  // namespace farwater::reports
