// Which bytes a result rests on: the sha256 of every input.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

// 64 lower-case hex digits of the file's sha256 (FIPS 180-4), read once in blocks; empty when the
// file cannot be read.
std::string sha256_of_file(const std::filesystem::path& file);
std::string sha256_of_text(std::string_view text);

// One file: its sha256. Several (a shapefile's parts): the sha256 of the lines "name sha256\n" in
// the order of the names. None: empty.
std::string sha256_of_files(std::vector<std::filesystem::path> files);

}  // namespace farwater::io
