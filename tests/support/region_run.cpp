#include "tests/support/region_run.h"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

namespace farwater::support {
namespace {

namespace fs = std::filesystem;

const fs::path region = "sample_region";

// Until it goes out of scope nobody else has it.
class Lock {
public:
    explicit Lock(const fs::path& file)
        : descriptor_(::open(file.c_str(), O_CREAT | O_RDWR | O_CLOEXEC, 0644)) {
        if (descriptor_ < 0 || ::flock(descriptor_, LOCK_EX) != 0) {
            throw std::runtime_error("cannot lock " + file.string());
        }
    }
    ~Lock() { ::close(descriptor_); }
    Lock(const Lock&) = delete;
    Lock& operator=(const Lock&) = delete;

private:
    int descriptor_;
};

std::string stamp_of(const fs::path& file) {
    return file.string() + ' ' + std::to_string(fs::file_size(file)) + ' ' +
           std::to_string(fs::last_write_time(file).time_since_epoch().count()) + '\n';
}

std::string stamps(const fs::path& program) {
    std::vector<std::string> all{stamp_of(program), stamp_of(region / "district.toml")};
    for (const auto& file : fs::recursive_directory_iterator(region / "data")) {
        if (file.is_regular_file()) {
            all.push_back(stamp_of(file.path()));
        }
    }
    std::ranges::sort(all);
    std::string text;
    for (const std::string& one : all) {
        text += one;
    }
    return text;
}

}  // namespace

// The stamps are written last: where they stand, the run before them is whole.
fs::path region_result(const fs::path& program) {
    const fs::path folder = program.parent_path() / "region_run";
    fs::create_directories(folder);
    const Lock lock(folder / "lock");
    const std::string now = stamps(program);
    if (fs::exists(folder / "stamps") && bytes_of(folder / "stamps") == now) {
        return folder / "out";
    }
    fs::remove(folder / "stamps");
    const Ended ended = run_program(program.string(), {"run", (region / "district.toml").string(),
                                                       "--out", (folder / "out").string()});
    if (ended.exit_code != 0) {
        throw std::runtime_error("the sample region is not worked out: " + ended.err);
    }
    put(folder / "summary.txt", ended.out.substr(0, ended.out.find("\nResults: ")));
    put(folder / "stamps", now);
    return folder / "out";
}

std::string region_summary(const fs::path& program) {
    return bytes_of(region_result(program).parent_path() / "summary.txt");
}

}  // namespace farwater::support
