#include "io/files/unchanged_files.h"

#include <algorithm>
#include <ctime>

#include <sys/stat.h>

#include "io/fingerprint.h"

namespace farwater::io {

namespace {

std::int64_t nanoseconds(const timespec& time) {
    return std::int64_t{time.tv_sec} * 1'000'000'000 + time.tv_nsec;
}

// File systems count time in steps of up to two seconds: a file that changed just now may change
// again under the same stamp.
constexpr std::int64_t longest_step_ns = 3'000'000'000;

bool settled(const FileStamps& stamps) {
    timespec now{};
    ::clock_gettime(CLOCK_REALTIME, &now);
    return std::ranges::all_of(
        stamps, [before = nanoseconds(now) - longest_step_ns](const FileStamp& stamp) {
            return stamp.changed_ns < before && stamp.status_changed_ns < before;
        });
}

FileStamp stamp_of(const std::filesystem::path& file) {
    struct stat status{};
    if (::stat(file.c_str(), &status) != 0) {
        return {};
    }
    return {status.st_dev, status.st_ino, status.st_size, nanoseconds(status.st_mtim),
            nanoseconds(status.st_ctim)};
}

}  // namespace

FileStamps stamps_of(const std::vector<std::filesystem::path>& files) {
    FileStamps stamps;
    stamps.reserve(files.size());
    for (const std::filesystem::path& file : files) {
        stamps.push_back(stamp_of(file));
    }
    return stamps;
}

std::string Fingerprints::of(const std::vector<std::filesystem::path>& files) {
    FileStamps now = stamps_of(files);
    const auto known = known_.find(files);
    if (known != known_.end() && known->second.stamps == now) {
        return known->second.sha256;
    }
    const bool tells_changes = settled(now);
    std::string sha256 = sha256_of_files(files);
    if (tells_changes) {
        known_[files] = {std::move(now), sha256};
    }
    return sha256;
}

}  // namespace farwater::io
