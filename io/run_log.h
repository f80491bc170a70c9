// The story of one run on one machine: times, host, memory. It is no result; results have no clock.
#pragma once

#include <chrono>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

// Wall and processor seconds of each stage, one after another. For one thread.
class RunLog {
public:
    struct Stage {
        std::string name;
        double wall_s = 0.0;
        double cpu_s = 0.0;  // of all threads
        long peak_mb = 0;    // largest memory of the process so far
    };

    RunLog();
    void stage(std::string_view name);  // ends the stage before it
    void end();                         // ends the last stage

    std::string text() const;                             // host, processors, one line a stage, sum
    void write(const std::filesystem::path& file) const;  // throws OutputError

private:
    std::vector<Stage> stages_;
    std::chrono::system_clock::time_point began_;
    std::chrono::steady_clock::time_point stage_wall_;
    double stage_cpu_s_ = 0.0;
    bool open_ = false;
};

}  // namespace farwater::io
