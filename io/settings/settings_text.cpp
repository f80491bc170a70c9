#include "io/settings/settings_text.h"

#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "io/error.h"

namespace farwater::io {

std::string settings_text(const std::filesystem::path& path, std::string_view wanted) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    if (stream.is_open() && stream.peek() != std::ifstream::traits_type::eof()) {
        text << stream.rdbuf();
    }
    if (!stream.is_open() || stream.bad() || std::filesystem::is_directory(path)) {
        const bool there = std::filesystem::exists(path);
        throw SettingsError(fmt::format("{}: {}; name {}", path.string(),
                                        there ? "it cannot be read" : "there is no such file",
                                        wanted));
    }
    return text.str();
}

}  // namespace farwater::io
