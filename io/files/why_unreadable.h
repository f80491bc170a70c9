// What is most often wrong with a file that is there and cannot be read.
#pragma once

#include <filesystem>
#include <string>

namespace farwater::io {

// A clause such as "the file is empty"; empty where nothing is seen, or there is no such file.
// Looks at the first bytes only.
std::string why_unreadable(const std::filesystem::path& file);

// Which part of a shapefile is not there, and that all belong together; empty where all are, or the
// file is none.
std::string missing_beside(const std::filesystem::path& file);

}  // namespace farwater::io
