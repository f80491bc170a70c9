#include "io/draft/find_data.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "io/error.h"
#include "io/files/letters.h"
#include "io/files/out_folder_lock.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

namespace fs = std::filesystem;
using namespace std::string_view_literals;

// Parts of a data set beside its main file: shapefile, raster, GeoPackage, index, style.
constexpr std::array part_endings{
    ".shx"sv,          ".prj"sv,      ".cpg"sv,      ".sbn"sv,          ".sbx"sv,     ".qpj"sv,
    ".qmd"sv,          ".qix"sv,      ".ind"sv,      ".atx"sv,          ".ovr"sv,     ".tfw"sv,
    ".tfwx"sv,         ".jgw"sv,      ".wld"sv,      ".aux.xml"sv,      ".shp.xml"sv, ".tif.xml"sv,
    ".tiff.aux.xml"sv, ".gpkg-wal"sv, ".gpkg-shm"sv, ".gpkg-journal"sv, ".lock"sv,    ".qml"sv,
    ".sld"sv,          ".lyr"sv,      ".lyrx"sv,     ".gfs"sv,          ".vat.dbf"sv, ".rrd"sv,
    ".hdr"sv,          ".stx"sv,      ".bak"sv,      ".tmp"sv};

constexpr std::array archive_endings{".zip"sv, ".7z"sv,  ".rar"sv, ".tar"sv,
                                     ".gz"sv,  ".tgz"sv, ".xz"sv,  ".bz2"sv};

// Archives that are read as they are.
constexpr std::array read_as_they_are{".hgt.zip"sv, ".shz"sv, ".shp.zip"sv};

constexpr std::array no_data{".txt"sv,  ".md"sv,   ".pdf"sv, ".doc"sv,  ".docx"sv, ".rtf"sv,
                             ".html"sv, ".htm"sv,  ".css"sv, ".js"sv,   ".toml"sv, ".ini"sv,
                             ".log"sv,  ".png"sv,  ".jpg"sv, ".jpeg"sv, ".gif"sv,  ".svg"sv,
                             ".mxd"sv,  ".qgs"sv,  ".qgz"sv, ".aprx"sv, ".py"sv,   ".sh"sv,
                             ".ppt"sv,  ".pptx"sv, ".msg"sv, ".eml"sv,  ".exe"sv};

template <class Endings>
bool ends_in(const std::string& lower, const Endings& endings) {
    return std::ranges::any_of(endings,
                               [&](std::string_view ending) { return lower.ends_with(ending); });
}

bool stands_beside(fs::path file, std::string_view extension) {
    std::error_code error;
    return fs::exists(file.replace_extension(extension), error);
}

bool is_part(const fs::path& file, const std::string& lower) {
    const bool table_of_shapes =
        lower.ends_with(".dbf") && (stands_beside(file, ".shp") || stands_beside(file, ".SHP"));
    // Of a grid in a folder of its own only the head is opened.
    const bool part_of_grid =
        lower.ends_with(".adf") && lower_case(file.filename().string()) != "hdr.adf";
    return table_of_shapes || part_of_grid || ends_in(lower, part_endings);
}

// Goes through one folder after the other.
class DataSearch {
public:
    DataSearch(const fs::path& folder, std::size_t most) : folder_(folder), most_(most) {}

    DataFound search() {
        std::error_code error;
        if (!fs::is_directory(folder_, error)) {
            throw InputError(fmt::format(
                "{}: {}; name the folder that your data lie in.", folder_.string(),
                fs::exists(folder_, error) ? "it is no folder" : "there is no such folder"));
        }
        for (const fs::path& entry : entries_of(folder_, true)) {
            look_at(entry, true);
        }
        if (passed_most_ > 0) {
            found_.left_out.push_back(
                {fmt::format("{} more files", passed_most_),
                 fmt::format("only {} are looked at; move those that matter to a folder of their "
                             "own",
                             most_)});
        }
        return std::move(found_);
    }

private:
    std::vector<fs::path> entries_of(const fs::path& folder, bool top) {
        std::vector<fs::path> entries;
        std::error_code error;
        for (auto entry = fs::directory_iterator(folder, error);
             !error && entry != fs::directory_iterator(); entry.increment(error)) {
            entries.push_back(entry->path());
        }
        if (error && top) {
            throw InputError(
                fmt::format("{}: cannot be read: {}.", folder.string(), error.message()));
        }
        if (error) {
            leave_out(folder, "cannot be read: " + error.message());
        }
        std::ranges::sort(entries);
        return entries;
    }

    void look_at(const fs::path& entry, bool top) {
        const std::string lower = lower_case(entry.filename().string());
        std::error_code error;
        // Hidden, or the lock of a spreadsheet that is open.
        if (lower.starts_with('.') || lower.starts_with("~$") || lower == "thumbs.db") {
            return;
        }
        if (fs::is_directory(entry, error)) {
            look_into(entry, lower, top);
        } else if (fs::is_regular_file(entry, error)) {
            take_file(entry, lower);
        } else {
            leave_out(entry, fs::is_symlink(entry, error) ? "a link that leads nowhere"
                                                          : "neither a file nor a folder");
        }
    }

    void look_into(const fs::path& entry, const std::string& lower, bool top) {
        if (lower.ends_with(".gdb")) {
            take(entry);
        } else if (read_mark(entry)) {
            leave_out(entry, "a result of this program");
        } else if (!top) {
            leave_out(entry, "a folder within a folder; only one level is looked into");
        } else {
            for (const fs::path& below : entries_of(entry, false)) {
                look_at(below, false);
            }
        }
    }

    void take_file(const fs::path& file, const std::string& lower) {
        if (is_part(file, lower)) {
            return;
        }
        if (ends_in(lower, no_data)) {
            found_.others.push_back(printed_path(file));
        } else if (ends_in(lower, archive_endings) && !ends_in(lower, read_as_they_are)) {
            leave_out(file, "an archive; unpack it into the folder");
        } else {
            take(file);
        }
    }

    void take(const fs::path& set) {
        if (!is_utf8(set.string())) {
            leave_out(set, "its name is no UTF-8, so a district file cannot hold it; rename it");
        } else if (found_.sets.size() >= most_) {
            ++passed_most_;
        } else {
            found_.sets.push_back(set.lexically_relative(folder_));
        }
    }

    std::string printed_path(const fs::path& path) const {
        return as_printed(path.lexically_relative(folder_).generic_string());
    }
    void leave_out(const fs::path& path, std::string why) {
        found_.left_out.push_back({printed_path(path), std::move(why)});
    }

    fs::path folder_;
    std::size_t most_;
    std::size_t passed_most_ = 0;
    DataFound found_;
};

}  // namespace

DataFound find_data(const std::filesystem::path& folder, std::size_t most) {
    return DataSearch(folder, most).search();
}

std::string as_written(const std::filesystem::path& below) {
    const std::string path = below.generic_string();
    return path.find(':') == std::string::npos ? path : "./" + path;
}

std::string as_printed(const std::string& text) {
    constexpr std::size_t most_letters = 120;
    return first_letters(seen_letters(as_utf8(text)).text, most_letters);
}

}  // namespace farwater::io
