#include "io/files/out_folder_lock.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fstream>
#include <string_view>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "io/whole_file.h"

namespace farwater::io {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view mark_name = ".farwater-results";
constexpr std::string_view mark_sentence =
    "This folder belongs to farwater, which replaces it as a whole. Keep your own files elsewhere.";
constexpr std::string_view mark_complete_word = "complete";

// What file managers leave behind everywhere; lost without regret.
constexpr std::array<std::string_view, 4> litter{".DS_Store", "Thumbs.db", "desktop.ini",
                                                 ".directory"};

bool same_file(int descriptor, const fs::path& path) {
    struct stat held{};
    struct stat named{};
    return ::fstat(descriptor, &held) == 0 && ::lstat(path.c_str(), &named) == 0 &&
           held.st_dev == named.st_dev && held.st_ino == named.st_ino;
}

// Everything below `folder` that is no folder, as paths from it, sorted. Throws OutputError.
std::vector<std::string> files_below(const fs::path& folder) {
    std::vector<std::string> files;
    std::error_code error;
    for (auto entry = fs::recursive_directory_iterator(folder, error);
         !error && entry != fs::recursive_directory_iterator(); entry.increment(error)) {
        if (!fs::is_directory(entry->symlink_status(error))) {
            files.push_back(entry->path().lexically_relative(folder).generic_string());
        }
    }
    if (error) {
        throw disk_error(folder, "list it", error.value());
    }
    std::ranges::sort(files);
    return files;
}

bool is_database_in_use(std::string_view file) {
    return file.ends_with("-wal") || file.ends_with("-shm") || file.ends_with("-journal");
}

bool is_litter(const std::string& file) {
    const std::string name = fs::path(file).filename().string();
    return std::ranges::find(litter, name) != litter.end();
}

void require_not_in_use(const fs::path& dir, const std::vector<std::string>& files) {
    const auto found = std::ranges::find_if(files, is_database_in_use);
    if (found != files.end()) {
        const std::string database = found->substr(0, found->rfind('-'));
        throw OutputError((dir / database).string() + ": is open in another program (" + *found +
                          " lies beside it). Close it there, or give another folder with --out. "
                          "The old result is untouched.");
    }
}

void require_ours(const fs::path& dir, const std::vector<std::string>& files) {
    const auto mark = read_mark(dir);
    if (!mark) {
        throw OutputError(dir.string() + ": holds files that are not results of farwater (" +
                          files.front() +
                          "). Give an empty or a new folder with --out. Nothing was changed.");
    }
    for (const std::string& file : files) {
        const bool known =
            file == mark_name || is_litter(file) || std::ranges::binary_search(mark->files, file);
        if (!known) {
            throw OutputError((dir / file).string() +
                              ": is not a result of farwater and would be lost. Move it away, or "
                              "give another folder with --out. Nothing was changed.");
        }
    }
}

}  // namespace

FolderLock::FolderLock(fs::path file, Descriptor held)
    : file_(std::move(file)), held_(std::move(held)) {}

FolderLock& FolderLock::operator=(FolderLock&& other) noexcept {
    std::swap(file_, other.file_);
    std::swap(held_, other.held_);
    return *this;
}

FolderLock::~FolderLock() {
    if (held_.open()) {
        ::unlink(file_.c_str());
    }
}

std::optional<FolderLock> FolderLock::take(const fs::path& dir) {
    fs::path file = dir.string() + ".lock";
    for (;;) {
        Descriptor held(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666));
        if (!held.open()) {
            throw disk_error(dir, "write beside it");
        }
        if (::flock(held.number(), LOCK_EX | LOCK_NB) != 0) {
            if (errno == EWOULDBLOCK) {
                return std::nullopt;
            }
            throw disk_error(file, "lock it");
        }
        // The holder before us may have removed the very file that we opened.
        if (same_file(held.number(), file)) {
            return FolderLock(std::move(file), std::move(held));
        }
    }
}

std::optional<FolderMark> read_mark(const fs::path& folder) {
    std::ifstream file(folder / mark_name);
    std::string line;
    if (!std::getline(file, line) || line != mark_sentence) {
        return std::nullopt;
    }
    FolderMark mark;
    mark.complete = std::getline(file, line) && line == mark_complete_word;
    while (mark.complete && std::getline(file, line)) {
        mark.files.push_back(line);
    }
    return mark;
}

bool is_barely_begun(const fs::path& folder) {
    const std::vector<std::string> files = files_below(folder);
    return std::ranges::all_of(files,
                               [](std::string_view file) { return file.starts_with(mark_name); });
}

void mark_unfinished(const fs::path& folder) {
    write_whole_file(folder / mark_name, std::string(mark_sentence) + "\n");
}

void mark_complete(const fs::path& folder) {
    std::string text = std::string(mark_sentence) + "\n" + std::string(mark_complete_word) + "\n";
    for (const std::string& file : files_below(folder)) {
        if (file != mark_name) {
            text += file + "\n";
        }
    }
    write_whole_file(folder / mark_name, text);
}

void require_replaceable(const fs::path& dir) {
    if (!stands(dir)) {
        return;
    }
    std::error_code error;
    if (!fs::is_directory(dir, error)) {
        throw OutputError(dir.string() +
                          ": is a file, not a folder. Give another folder with "
                          "--out. Nothing was changed.");
    }
    const std::vector<std::string> files = files_below(dir);
    if (!files.empty()) {
        require_not_in_use(dir, files);
        require_ours(dir, files);
    }
}

}  // namespace farwater::io
