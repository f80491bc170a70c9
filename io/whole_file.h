// Files that are there whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace farwater::io {

// Writes beside `file` (`FILE.new-PID`) and takes its place in finish(). Without finish() the
// destructor removes what was written and an older `file` stays. Throws OutputError with the path
// and the system's reason.
class WholeFile {
public:
    explicit WholeFile(std::filesystem::path file);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    void write(std::string_view bytes);  // buffered
    void finish();                       // fsync, then rename

private:
    void flush();

    std::filesystem::path file_;
    std::filesystem::path beside_;
    std::string buffer_;
    int descriptor_ = -1;
};

// A whole small file. The same errors.
void write_whole_file(const std::filesystem::path& file, std::string_view bytes);

}  // namespace farwater::io
