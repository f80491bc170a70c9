#include "io/files/why_unreadable.h"

#include <array>
#include <fstream>

#include <fmt/format.h>

#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

bool is_there(std::filesystem::path file, const std::string& extension) {
    std::error_code error;
    return std::filesystem::exists(file.replace_extension(extension), error);
}

bool begins_as_utf16(const std::filesystem::path& file) {
    std::array<char, 2> begin{};
    std::ifstream(file, std::ios::binary).read(begin.data(), begin.size());
    return begin == std::array{'\xFF', '\xFE'} || begin == std::array{'\xFE', '\xFF'};
}

}  // namespace

std::string why_absent(const std::filesystem::path& file) {
    std::error_code error;
    const bool there = std::filesystem::exists(file, error);
    if (error) {
        return fmt::format("{} cannot be looked at: {}", file.string(), error.message());
    }
    return there ? std::string()
                 : fmt::format("there is no file {}; correct file in the district file",
                               file.string());
}

std::string why_unreadable(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) {
        return {};
    }
    if (std::filesystem::file_size(file, error) == 0) {
        return "the file is empty";
    }
    if (begins_as_utf16(file)) {
        return "the file is UTF-16 text; save it as CSV in UTF-8";
    }
    return missing_beside(file);
}

std::string missing_beside(const std::filesystem::path& file) {
    if (lower_case(file.extension().string()) != ".shp") {
        return {};
    }
    constexpr std::array<std::array<const char*, 2>, 2> parts{{{".shx", ".SHX"}, {".dbf", ".DBF"}}};
    for (const auto& [part, in_capitals] : parts) {
        if (!is_there(file, part) && !is_there(file, in_capitals)) {
            return fmt::format(
                "its {} is not beside it; a shapefile is .shp, .shx, .dbf and .prj together", part);
        }
    }
    return {};
}

}  // namespace farwater::io
