#include "io/files/disk.h"

#include <algorithm>
#include <cerrno>
#include <system_error>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

namespace farwater::io {

namespace {

constexpr std::size_t most_synced_singly = 50;

void sync_file_system(const std::filesystem::path& of) {
    const Descriptor folder(::open(of.c_str(), O_RDONLY | O_CLOEXEC | O_DIRECTORY));
    if (!folder.open() || ::syncfs(folder.number()) != 0) {
        throw disk_error(of, "bring it to the disk");
    }
}

}  // namespace

OutputError disk_error(const std::filesystem::path& path, std::string_view what) {
    return disk_error(path, what, errno);
}

OutputError disk_error(const std::filesystem::path& path, std::string_view what, int error_number) {
    return OutputError(path.string() + ": cannot " + std::string(what) + ": " +
                       std::generic_category().message(error_number) + ".");
}

Descriptor::~Descriptor() { close(); }

Descriptor::Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
}

bool Descriptor::close() {
    const int number = std::exchange(number_, -1);
    return number < 0 || ::close(number) == 0;
}

void sync_to_disk(const std::filesystem::path& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW));
    // Some file systems have nothing to do for a folder and say so with EINVAL.
    if (!file.open() || (::fsync(file.number()) != 0 && errno != EINVAL)) {
        throw disk_error(path, "bring it to the disk");
    }
}

void sync_tree_to_disk(const std::filesystem::path& folder) {
    std::error_code error;
    std::vector<std::filesystem::path> inside;
    for (auto entry = std::filesystem::recursive_directory_iterator(folder, error);
         !error && entry != std::filesystem::recursive_directory_iterator();
         entry.increment(error)) {
        if (!entry->is_symlink(error) &&
            (entry->is_directory(error) || entry->is_regular_file(error))) {
            inside.push_back(entry->path());
        }
    }
    if (error) {
        throw disk_error(folder, "list it", error.value());
    }
    if (inside.size() > most_synced_singly) {
        sync_file_system(folder);
        return;
    }
    std::ranges::for_each(inside, sync_to_disk);
    sync_to_disk(folder);
}

bool stands(const std::filesystem::path& path) {
    std::error_code error;
    return std::filesystem::exists(std::filesystem::symlink_status(path, error));
}

}  // namespace farwater::io
