#include "io/settings/settings_text.h"

#include <algorithm>
#include <fstream>

#include <fmt/format.h>

#include "io/error.h"
#include "io/files/letters.h"

namespace farwater::io {

namespace {

// Whoever names a data set by mistake need not wait until it is read.
constexpr std::size_t most_bytes = std::size_t{16} << 20U;

// Letters that nobody sees make a word look like another, and a name on a document too.
void check_letters(const std::filesystem::path& path, std::string_view text) {
    const bool mark = text.starts_with("\xEF\xBB\xBF");
    std::string_view rest = text.substr(mark ? 3 : 0);
    const bool told_later = !is_utf8(text);
    for (std::size_t line = 1; !told_later && !rest.empty(); ++line) {
        const std::size_t end = std::min(rest.find('\n'), rest.size());
        if (seen_letters(rest.substr(0, end)).left_out) {
            throw SettingsError(fmt::format(
                "{}:{}: holds a letter that nobody sees, or that turns the writing round; type the "
                "line anew",
                path.string(), line));
        }
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
}

}  // namespace

std::string settings_text(const std::filesystem::path& path, std::string_view wanted) {
    std::ifstream stream(path, std::ios::binary);
    std::string text(stream.is_open() ? most_bytes + 1 : 0, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    text.shrink_to_fit();  // it is kept as long as the district
    if (text.size() > most_bytes) {
        throw SettingsError(
            fmt::format("{}: it is larger than any such file; name {}", path.string(), wanted));
    }
    std::error_code error;
    if (!stream.is_open() || stream.bad() || std::filesystem::is_directory(path, error)) {
        // What cannot be looked at may well be there.
        const bool there = std::filesystem::exists(path, error) || error;
        throw SettingsError(fmt::format("{}: {}; name {}", path.string(),
                                        there ? "it cannot be read" : "there is no such file",
                                        wanted));
    }
    check_letters(path, text);
    return text;
}

}  // namespace farwater::io
