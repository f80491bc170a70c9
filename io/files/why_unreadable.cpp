#include "io/files/why_unreadable.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include "io/files/letters.h"
#include "io/near_word.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

// Beside the file, with its name; empty where there is none.
std::filesystem::path part_beside(std::filesystem::path file, const std::string& extension) {
    std::error_code error;
    file.replace_extension(extension);
    return std::filesystem::exists(file, error) ? file : std::filesystem::path();
}

// The system's words where the file may not be opened, of which GDAL says nothing.
std::string why_closed(const std::filesystem::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (descriptor < 0) {
        return "cannot be opened: " + std::generic_category().message(errno);
    }
    ::close(descriptor);
    return {};
}

std::uint32_t big_endian(std::string_view bytes) {
    std::uint32_t number = 0;
    for (const char byte : bytes) {
        number = number << 8U | static_cast<unsigned char>(byte);
    }
    return number;
}

// Of a GeoPackage, by the number of pages in its head, which counts where the file was changed as
// often as at the writing of that number (https://www.sqlite.org/fileformat2.html, 1.3).
std::string why_cut_off(const std::filesystem::path& file, std::uintmax_t bytes) {
    std::string head(100, '\0');
    std::ifstream(file, std::ios::binary)
        .read(head.data(), static_cast<std::streamsize>(head.size()));
    const std::string_view all = head;
    const std::uintmax_t page = big_endian(all.substr(16, 2));
    const std::uintmax_t whole = big_endian(all.substr(28, 4)) * (page == 1 ? 65'536 : page);
    const bool counts = all.substr(24, 4) == all.substr(92, 4);
    return all.starts_with("SQLite format 3") && counts && bytes < whole
               ? fmt::format("the file is cut off, {} of {} bytes are there; copy it anew", bytes,
                             whole)
               : std::string();
}

constexpr std::array<std::string_view, 19> data_endings{
    ".gpkg", ".shp", ".geojson", ".json", ".csv", ".xlsx", ".ods", ".gdb", ".fgb",   ".kml",
    ".gml",  ".dxf", ".pbf",     ".osm",  ".tif", ".tiff", ".vrt", ".hgt", ".sqlite"};

// The data files beside where it should be, sorted; none where the folder cannot be read.
std::vector<std::string> data_beside(const std::filesystem::path& file) {
    std::vector<std::string> names;
    std::error_code error;
    for (auto entry = std::filesystem::directory_iterator(file.parent_path(), error);
         !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
        const std::filesystem::path& path = entry->path();
        const std::string ending = lower_case(path.extension().string());
        if (std::ranges::find(data_endings, ending) != data_endings.end()) {
            names.push_back(
                first_letters(seen_letters(as_utf8(path.filename().string())).text, 80));
        }
    }
    std::ranges::sort(names);
    return names;
}

// Of those: the one of the same stem, or that holds it ("tax_parcels.shp" for "parcels.gpkg"), or
// that is spelled nearly so; else what there is.
std::string instead_of(const std::filesystem::path& file) {
    constexpr std::size_t most_shown = 8;
    const std::vector<std::string> names = data_beside(file);
    const std::string wanted = lower_case(file.stem().string());
    const auto near = std::ranges::find_if(names, [&](const std::string& name) {
        return lower_case(std::filesystem::path(name).stem().string()).find(wanted) !=
               std::string::npos;
    });
    const std::vector<std::string_view> views(names.begin(), names.end());
    const std::string_view meant = near != names.end()
                                       ? std::string_view(*near)
                                       : nearest_word(file.filename().string(), views);
    if (!meant.empty()) {
        return fmt::format("; did you mean \"{}\"?", meant);
    }
    const std::size_t shown = std::min(names.size(), most_shown);
    return names.empty()
               ? ""
               : fmt::format(
                     "; its folder holds {}{}",
                     fmt::join(views.begin(), views.begin() + static_cast<std::ptrdiff_t>(shown),
                               ", "),
                     shown < names.size() ? fmt::format(" and {} more", names.size() - shown) : "");
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
    if (!there) {
        return fmt::format("there is no file {}; correct file in the district file{}",
                           file.string(), instead_of(file));
    }
    return std::filesystem::is_regular_file(file, error) ||
                   std::filesystem::is_directory(file, error)
               ? std::string()
               : file.string() +
                     " is a pipe or a device, and inputs are read twice; name a file or a folder";
}

std::string why_unreadable(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) {
        return {};
    }
    const std::uintmax_t bytes = std::filesystem::file_size(file, error);
    if (bytes == 0) {
        return "the file is empty";
    }
    if (const std::string why = why_closed(file); !why.empty()) {
        return "the file " + why;
    }
    if (std::string why = why_cut_off(file, bytes); !why.empty()) {
        return why;
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
        const std::filesystem::path small = part_beside(file, part);
        const std::filesystem::path found = small.empty() ? part_beside(file, in_capitals) : small;
        if (found.empty()) {
            return fmt::format(
                "its {} is not beside it; a shapefile is .shp, .shx, .dbf and .prj together", part);
        }
        if (const std::string why = why_closed(found); !why.empty()) {
            return fmt::format("its {} {}", part, why);
        }
    }
    return {};
}

}  // namespace farwater::io
