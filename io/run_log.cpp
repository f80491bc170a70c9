#include "io/run_log.h"

#include <algorithm>
#include <ctime>
#include <iterator>
#include <thread>

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/utsname.h>
#include <unistd.h>

#include "io/whole_file.h"

namespace farwater::io {

namespace {

double seconds(const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
}

rusage usage() {
    rusage result{};
    ::getrusage(RUSAGE_SELF, &result);
    return result;
}

double cpu_s() {
    const rusage now = usage();
    return seconds(now.ru_utime) + seconds(now.ru_stime);
}

std::string utc(std::chrono::system_clock::time_point point) {
    const std::time_t seconds_since = std::chrono::system_clock::to_time_t(point);
    std::tm parts{};
    ::gmtime_r(&seconds_since, &parts);
    return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}:{:02} UTC", parts.tm_year + 1900,
                       parts.tm_mon + 1, parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec);
}

}  // namespace

RunLog::RunLog() : began_(std::chrono::system_clock::now()) {}

void RunLog::stage(std::string_view name) {
    end();
    stages_.push_back({std::string(name), 0.0, 0.0, 0});
    stage_wall_ = std::chrono::steady_clock::now();
    stage_cpu_s_ = cpu_s();
    open_ = true;
}

void RunLog::end() {
    if (!open_) {
        return;
    }
    Stage& stage = stages_.back();
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - stage_wall_;
    stage.wall_s = wall.count();
    stage.cpu_s = cpu_s() - stage_cpu_s_;
    stage.peak_mb = usage().ru_maxrss / 1024;
    open_ = false;
}

std::string RunLog::text() const {
    utsname host{};
    ::uname(&host);
    std::string result =
        fmt::format("begun {} on {} ({} {} {}), {} processors\n", utc(began_), host.nodename,
                    host.sysname, host.release, host.machine, std::thread::hardware_concurrency());
    const auto out = std::back_inserter(result);
    fmt::format_to(out, "{:<32} {:>9} {:>9} {:>9}\n", "stage", "wall s", "cpu s", "peak MB");
    Stage sum{"all", 0.0, 0.0, 0};
    for (const Stage& stage : stages_) {
        fmt::format_to(out, "{:<32} {:>9.2f} {:>9.2f} {:>9}\n", stage.name, stage.wall_s,
                       stage.cpu_s, stage.peak_mb);
        sum.wall_s += stage.wall_s;
        sum.cpu_s += stage.cpu_s;
        sum.peak_mb = std::max(sum.peak_mb, stage.peak_mb);
    }
    fmt::format_to(out, "{:<32} {:>9.2f} {:>9.2f} {:>9}\n", sum.name, sum.wall_s, sum.cpu_s,
                   sum.peak_mb);
    return result;
}

void RunLog::write(const std::filesystem::path& file) const { write_whole_file(file, text()); }

}  // namespace farwater::io
