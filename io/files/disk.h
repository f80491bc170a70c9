// The few things that the disk is asked for beyond the standard library: bytes that are really
// there, and reasons in the system's words.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "io/error.h"

namespace farwater::io {

// "PATH: cannot WHAT: No space left on device." The reason is errno's, to be called right after.
OutputError disk_error(const std::filesystem::path& path, std::string_view what);
OutputError disk_error(const std::filesystem::path& path, std::string_view what, int error_number);

// An open file or folder, closed at the end.
class Descriptor {
public:
    Descriptor() = default;
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor();
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    Descriptor(Descriptor&& other) noexcept;
    Descriptor& operator=(Descriptor&& other) noexcept;
    int number() const { return number_; }
    bool open() const { return number_ >= 0; }
    bool close();  // false when the system reports a late failure of writing

private:
    int number_ = -1;
};

// Waits until the file's or the folder's own entry is on the disk. Throws OutputError.
void sync_to_disk(const std::filesystem::path& path);
// The folder, all files and folders below. Many files are cheaper through one call for the whole
// file system.
void sync_tree_to_disk(const std::filesystem::path& folder);

// Whether anything stands under this name, a dangling link included. Never throws.
bool stands(const std::filesystem::path& path);

}  // namespace farwater::io
