// What is most often wrong with a file that cannot be read.
#pragma once

#include <filesystem>
#include <string>

namespace farwater::io {

// A clause, "there is no file PATH; correct file in the district file", or the system's words where
// it cannot tell whether there is one (a folder that may not be searched). Empty where there is.
std::string why_absent(const std::filesystem::path& file);

// A clause such as "the file is empty"; empty where nothing is seen, or there is no such file.
// Looks at the first bytes only.
std::string why_unreadable(const std::filesystem::path& file);

// Which part of a shapefile is not there, and that all belong together; empty where all are, or the
// file is none.
std::string missing_beside(const std::filesystem::path& file);

}  // namespace farwater::io
