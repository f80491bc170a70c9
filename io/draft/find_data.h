// Which files of a folder may be data.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace farwater::io {

struct PassedOver {
    std::string source;  // path below the folder, with its layer; fit to print
    std::string why;     // one clause
};

struct DataFound {
    std::vector<std::filesystem::path> sets;  // below the folder, sorted
    std::vector<PassedOver> left_out;         // what may hold data and is not looked into
    std::vector<std::string> others;          // no data by their names, such as texts and pictures
};

// The folder and one level of folders in it; a .gdb folder is one data set. Parts of other files
// (.shx, .prj, .dbf beside a .shp, -wal) and hidden files are passed over without a word, results
// of this program, archives, links to nowhere and deeper folders are told. At most `most` data
// sets; the rest is told as left out. Throws InputError where the folder is none or cannot be read.
DataFound find_data(const std::filesystem::path& folder, std::size_t most);

// A path below the folder as a district file writes it: no connection of GDAL's by its looks.
std::string as_written(const std::filesystem::path& below);
// The same, fit to print on one line.
std::string as_printed(const std::string& text);

}  // namespace farwater::io
