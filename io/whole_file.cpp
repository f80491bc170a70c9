#include "io/whole_file.h"

#include <cerrno>
#include <cstdio>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

#include "io/files/disk.h"

namespace farwater::io {

namespace {

constexpr std::size_t buffer_bytes = std::size_t{1} << 18;

// What a link leads to; the path itself where it leads nowhere.
std::filesystem::path behind_links(std::filesystem::path file) {
    std::error_code error;
    if (!std::filesystem::is_symlink(file, error)) {
        return file;
    }
    std::filesystem::path there = std::filesystem::canonical(file, error);
    return error ? file : there;
}

// A pipe or a device is there to be written to, not to be replaced.
bool takes_bytes(const std::filesystem::path& file) {
    std::error_code error;
    const std::filesystem::file_status status = std::filesystem::status(file, error);
    return std::filesystem::exists(status) && !std::filesystem::is_regular_file(status) &&
           !std::filesystem::is_directory(status);
}

std::filesystem::path written_first(const std::filesystem::path& file) {
    return takes_bytes(file)
               ? std::filesystem::path()
               : std::filesystem::path(file.string() + ".new-" + std::to_string(::getpid()));
}

}  // namespace

WholeFile::WholeFile(std::filesystem::path file)
    : file_(behind_links(std::move(file))),
      beside_(written_first(file_)),
      descriptor_(beside_.empty()
                      ? ::open(file_.c_str(), O_WRONLY | O_CLOEXEC)
                      : ::open(beside_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666)) {
    if (descriptor_ < 0) {
        throw disk_error(file_, "write it");
    }
    buffer_.reserve(buffer_bytes);
}

WholeFile::~WholeFile() {
    if (descriptor_ >= 0) {
        ::close(descriptor_);
    }
    if (!beside_.empty()) {
        ::unlink(beside_.c_str());
    }
}

void WholeFile::write(std::string_view bytes) {
    buffer_.append(bytes);
    if (buffer_.size() >= buffer_bytes) {
        flush();
    }
}

void WholeFile::flush() {
    for (std::size_t done = 0; done < buffer_.size();) {
        const ssize_t written = ::write(descriptor_, buffer_.data() + done, buffer_.size() - done);
        if (written < 0 && errno != EINTR) {
            throw disk_error(file_, "write it (an older one is untouched)");
        }
        done += written > 0 ? static_cast<std::size_t>(written) : 0;
    }
    buffer_.clear();
}

void WholeFile::finish() {
    flush();
    if (::close(std::exchange(descriptor_, -1)) != 0) {
        throw disk_error(file_, "write it (an older one is untouched)");
    }
    if (beside_.empty()) {
        return;
    }
    if (::rename(beside_.c_str(), file_.c_str()) != 0) {
        throw disk_error(file_, "put the new file in its place");
    }
    beside_.clear();
}

void write_whole_file(const std::filesystem::path& file, std::string_view bytes) {
    WholeFile whole(file);
    whole.write(bytes);
    whole.finish();
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
        throw disk_error(folder, "make this folder", error.value());
    }
}

}  // namespace farwater::io
