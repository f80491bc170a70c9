// What is most often wrong with a file that cannot be read.
#pragma once

#include <filesystem>
#include <string>

namespace farwater::io {

// A clause, "there is no file PATH; correct file in the district file" with the data file beside it
// that may be meant, else those that there are, or the system's words where it cannot tell whether
// there is one (a folder that may not be searched), or that it is a pipe, at which a reader would
// wait for ever. Empty where there is a file or a folder.
std::string why_absent(const std::filesystem::path& file);

// A clause such as "the file is empty", "the file cannot be opened: Permission denied" or, of a
// GeoPackage, "the file is cut off, 4096 of 98304 bytes are there; copy it anew"; empty where
// nothing is seen, or there is no such file. Looks at the first bytes only.
std::string why_unreadable(const std::filesystem::path& file);

// Which part of a shapefile is not there, and that all belong together, or cannot be opened; empty
// where all can, or the file is none.
std::string missing_beside(const std::filesystem::path& file);

}  // namespace farwater::io
