// The text of a file that somebody wrote by hand: a district file, a scenario.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace farwater::io {

// Throws SettingsError when it cannot be read, or holds letters that nobody sees (seen_letters);
// `wanted` ends the sentence, "the district's TOML file".
std::string settings_text(const std::filesystem::path& path, std::string_view wanted);

}  // namespace farwater::io
