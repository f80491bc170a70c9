#include "io/draft/toml_lines.h"

#include <algorithm>

#include <fmt/format.h>

#include "io/files/letters.h"

namespace farwater::io {
namespace {

constexpr std::size_t line_letters = 98;

// A letter as a TOML escape.
std::string escaped_letter(std::string_view letter) {
    const auto byte = [&](std::size_t i) {
        return static_cast<unsigned>(static_cast<unsigned char>(letter[i]));
    };
    switch (letter.size()) {
        case 1:
            return fmt::format("\\u{:04X}", byte(0));
        case 2:
            return fmt::format("\\u{:04X}", (byte(0) & 0x1FU) << 6U | (byte(1) & 0x3FU));
        case 3:
            return fmt::format("\\u{:04X}", (byte(0) & 0x0FU) << 12U | (byte(1) & 0x3FU) << 6U |
                                                (byte(2) & 0x3FU));
        default:
            return fmt::format("\\U{:08X}", (byte(0) & 0x07U) << 18U | (byte(1) & 0x3FU) << 12U |
                                                (byte(2) & 0x3FU) << 6U | (byte(3) & 0x3FU));
    }
}

}  // namespace

std::string toml_text(std::string_view text) {
    std::string quoted = "\"";
    while (!text.empty()) {
        const std::size_t length = std::max<std::size_t>(1, letter_length(text));
        const std::string_view letter = text.substr(0, length);
        text.remove_prefix(length);
        if (letter == "\"" || letter == "\\") {
            quoted += '\\';
            quoted += letter;
        } else if (const SeenLetters seen = seen_letters(letter);
                   seen.left_out || seen.text != letter) {
            quoted += escaped_letter(letter);
        } else {
            quoted += letter;
        }
    }
    return quoted + "\"";
}

std::string toml_pair(std::string_view key, std::string_view text) {
    return fmt::format("{} = {}", key, toml_text(text));
}

void TomlLines::blank() {
    if (!lines_.empty() && !lines_.back().empty()) {
        lines_.emplace_back();
    }
}

void TomlLines::comment(std::string_view text) {
    const std::string seen = seen_letters(as_utf8(text)).text;
    const std::size_t indent = std::min(seen.find_first_not_of(' '), seen.size());
    std::string_view rest = std::string_view(seen).substr(indent);
    const std::string begin = "# " + std::string(indent, ' ');
    const std::size_t most = line_letters - indent;
    while (!rest.empty()) {
        std::size_t end = rest.size();
        if (end > most) {
            end = rest.rfind(' ', most);
            end = end == std::string_view::npos || end == 0 ? rest.find(' ') : end;
            end = std::min(end, rest.size());
        }
        lines_.push_back(begin + std::string(rest.substr(0, end)));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
}

void TomlLines::heading(std::string_view words) {
    blank();
    std::string line = fmt::format("# ---- {} ", words);
    line.append(line.size() < line_letters ? line_letters - line.size() : 0, '-');
    lines_.push_back(std::move(line));
    lines_.emplace_back();
}

void TomlLines::take(const TomlLines& other, bool as_comment) {
    for (const std::string& line : other.lines_) {
        const bool has_mark = line.empty() || line.starts_with('#');
        lines_.push_back(as_comment && !has_mark ? "# " + line : line);
    }
}

std::string TomlLines::text() const {
    std::string text;
    for (const std::string& line : lines_) {
        text += line + "\n";
    }
    return text;
}

}  // namespace farwater::io
