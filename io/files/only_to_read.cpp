#include "io/files/only_to_read.h"

#include <array>
#include <fstream>
#include <string>

#include <fcntl.h>
#include <unistd.h>

#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

// Bytes 18 and 19 of the head are 2 (https://www.sqlite.org/fileformat2.html, 1.3).
bool keeps_a_log(const std::filesystem::path& file) {
    std::array<char, 20> head{};
    std::ifstream(file, std::ios::binary).read(head.data(), head.size());
    return head[18] == 2 && head[19] == 2;
}

}  // namespace

bool is_only_to_read(const std::filesystem::path& file) {
    std::error_code error;
    if (lower_case(file.extension().string()) != ".gpkg" || !keeps_a_log(file) ||
        ::faccessat(AT_FDCWD, file.c_str(), W_OK, AT_EACCESS) == 0) {
        return false;
    }
    const std::filesystem::path log = file.string() + "-wal";
    return !std::filesystem::exists(log, error) ||
           (std::filesystem::file_size(log, error) == 0 && !error);
}

}  // namespace farwater::io
