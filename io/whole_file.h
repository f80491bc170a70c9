// Files that every reader sees whole or not at all, and folders for them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace farwater::io {

// Writes beside `file` (`FILE.new-PID`) and takes its place in finish(). Without finish() the
// destructor removes what was written and an older `file` stays. Of a link, what it leads to is
// written; a pipe or a device gets the bytes as they come. The bytes are really on the disk with
// OutFolder::commit, which does it for all files at once, or when the system finds time. Throws
// OutputError with the path and the system's reason.
class WholeFile {
public:
    explicit WholeFile(std::filesystem::path file);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    void write(std::string_view bytes);  // buffered
    void finish();

private:
    void flush();

    std::filesystem::path file_;
    std::filesystem::path beside_;  // empty = the bytes go into `file_` itself
    std::string buffer_;
    int descriptor_ = -1;
};

// A whole small file. The same errors.
void write_whole_file(const std::filesystem::path& file, std::string_view bytes);

// A folder for them, with those above it; one that is there stays. The same errors.
void make_folder(const std::filesystem::path& folder);

}  // namespace farwater::io
