// The lock and the mark of an out folder; see io/out_folder.h.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "io/files/disk.h"

namespace farwater::io {

// `DIR.lock`, held by one process at a time, gone again when given back.
class FolderLock {
public:
    // None when another process holds it. Throws OutputError where no lock can be made.
    static std::optional<FolderLock> take(const std::filesystem::path& dir);
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    FolderLock(FolderLock&&) noexcept = default;
    FolderLock& operator=(FolderLock&& other) noexcept;
    ~FolderLock();

private:
    FolderLock(std::filesystem::path file, Descriptor held);
    std::filesystem::path file_;
    Descriptor held_;
};

// What `.farwater-results` in a folder says.
struct FolderMark {
    bool complete = false;           // the result in it is whole
    std::vector<std::string> files;  // that make it up, below the folder, sorted; only if complete
};

// None: no folder of ours.
std::optional<FolderMark> read_mark(const std::filesystem::path& folder);
// A folder that a run had only begun: nothing in it, or a mark in the making.
bool is_barely_begun(const std::filesystem::path& folder);
void mark_unfinished(const std::filesystem::path& folder);
// Lists the files that stand in the folder now.
void mark_complete(const std::filesystem::path& folder);

// Throws OutputError unless `dir` is absent, empty, or a result of ours with nothing else in it,
// none of it open in another program. The sentence says what to do.
void require_replaceable(const std::filesystem::path& dir);

}  // namespace farwater::io
