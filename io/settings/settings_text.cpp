#include "io/settings/settings_text.h"

#include <fstream>

#include <fmt/format.h>

#include "io/error.h"

namespace farwater::io {

namespace {

// Whoever names a data set by mistake need not wait until it is read.
constexpr std::size_t most_bytes = std::size_t{16} << 20U;

}  // namespace

std::string settings_text(const std::filesystem::path& path, std::string_view wanted) {
    std::ifstream stream(path, std::ios::binary);
    std::string text(stream.is_open() ? most_bytes + 1 : 0, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    if (text.size() > most_bytes) {
        throw SettingsError(
            fmt::format("{}: it is larger than any such file; name {}", path.string(), wanted));
    }
    if (!stream.is_open() || stream.bad() || std::filesystem::is_directory(path)) {
        const bool there = std::filesystem::exists(path);
        throw SettingsError(fmt::format("{}: {}; name {}", path.string(),
                                        there ? "it cannot be read" : "there is no such file",
                                        wanted));
    }
    return text;
}

}  // namespace farwater::io
