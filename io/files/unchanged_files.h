// Whether files are still what they were: by their sha256, read once, and by size and times since.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace farwater::io {

// What the system says of a file without reading it. All zero for a file that is not there.
struct FileStamp {
    std::uint64_t device = 0;
    std::uint64_t number = 0;
    std::int64_t size = 0;
    std::int64_t changed_ns = 0;         // its content
    std::int64_t status_changed_ns = 0;  // anything of it; nobody can set that back
    bool operator==(const FileStamp&) const = default;
};

using FileStamps = std::vector<FileStamp>;
FileStamps stamps_of(const std::vector<std::filesystem::path>& files);  // never throws

// Sha256 of lists of files (sha256_of_files). They are read again when a stamp has changed, or when
// they changed so shortly before the first reading that a stamp might not show the next change.
class Fingerprints {
public:
    std::string of(const std::vector<std::filesystem::path>& files);

private:
    struct Known {
        FileStamps stamps;
        std::string sha256;
    };
    std::map<std::vector<std::filesystem::path>, Known> known_;
};

}  // namespace farwater::io
