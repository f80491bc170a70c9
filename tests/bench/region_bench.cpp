// The whole run against a plain copy of the same layers, in one go on one machine:
//   bench_region_bench 100k            (or 1m; a second argument keeps the data in that folder)
// Generates the region (legs of 20 minutes at most), copies its parcels and roads with ogr2ogr
// (their processor seconds are B), runs farwater, and prints every stage with processor and wall
// seconds and peak memory, then the ratio of everything but the supply stage to B. Ratios hold
// where absolute seconds do not: these are processor times of neighbouring processes. Not a test;
// nothing fails by being slow.
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

struct Cost {
    int exit_code = -1;
    double wall_s = 0.0;
    double cpu_s = 0.0;
    double peak_mb = 0.0;
};

double seconds_of(const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

Cost run(const std::vector<std::string>& command) {
    std::vector<char*> argv;
    for (const std::string& word : command) {
        argv.push_back(const_cast<char*>(word.c_str()));
    }
    argv.push_back(nullptr);
    const auto began = std::chrono::steady_clock::now();
    const pid_t child = ::fork();
    if (child == 0) {
        ::execvp(argv[0], argv.data());
        ::_exit(127);
    }
    int status = 0;
    rusage usage{};
    ::wait4(child, &status, 0, &usage);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 1,
            std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count(),
            seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime),
            static_cast<double>(usage.ru_maxrss) / 1024.0};
}

void print(const std::string& what, const Cost& cost) {
    fmt::print("{:<44} {:9.2f} {:9.2f} {:9.0f}{}\n", what, cost.cpu_s, cost.wall_s, cost.peak_mb,
               cost.exit_code == 0 ? "" : "  FAILED");
}

// Processor seconds of the stages named "supply..." in a run.log.
struct Stages {
    std::string text;
    double supply_cpu_s = 0.0;
};

Stages stages_of(const fs::path& log) {
    Stages stages;
    std::ifstream file(log);
    for (std::string line; std::getline(file, line);) {
        stages.text += "    " + line + "\n";
        if (line.rfind("supply", 0) == 0) {
            std::istringstream words(line);  // the last three: wall, cpu, peak
            const std::vector<std::string> all{std::istream_iterator<std::string>(words), {}};
            stages.supply_cpu_s += std::stod(all.at(all.size() - 2));
        }
    }
    return stages;
}

Cost copy_of(const fs::path& data, const fs::path& folder, const std::string& layer) {
    return run({"ogr2ogr", "-f", "GPKG", (folder / ("copy_" + layer + ".gpkg")).string(),
                data.string(), layer});
}

}  // namespace

int main(int argc, char** argv) {
    const std::string size = argc > 1 ? argv[1] : "100k";
    const fs::path folder =
        argc > 2 ? fs::path(argv[2]) : fs::temp_directory_path() / ("farwater-bench-" + size);
    const fs::path data = folder / "data";
    if (!fs::exists(data / "district.toml")) {
        fs::create_directories(data);
        print("generating " + size,
              run({FARWATER_GENERATOR, "--preset", size, "--out", data.string()}));
        // The goals are for legs of 20 minutes.
        std::ofstream(data / "district.toml", std::ios::app)
            << "\n[assumptions]\ntrip_limit_min = 20\n";
    }
    fmt::print("{:<44} {:>9} {:>9} {:>9}\n", "", "cpu s", "wall s", "peak MB");
    const fs::path county = data / "county.gpkg";
    fs::remove(folder / "copy_parcels.gpkg");
    fs::remove(folder / "copy_roads.gpkg");
    const Cost parcels = copy_of(county, folder, "parcels");
    const Cost roads = copy_of(county, folder, "roads");
    print("plain copy of the parcels", parcels);
    print("plain copy of the roads", roads);
    const std::string out = (folder / "result").string();
    const Cost whole =
        run({FARWATER_PROGRAM, "run", (data / "district.toml").string(), "--out", out, "--quiet"});
    print("farwater run", whole);
    const Stages stages = stages_of(folder / "result" / "run.log");
    fmt::print("{}", stages.text);
    const double b = parcels.cpu_s + roads.cpu_s;
    fmt::print("\nB, both copies: {:.2f} cpu s. Supply stage: {:.2f} cpu s.\n", b,
               stages.supply_cpu_s);
    fmt::print("Everything but the supply stage: {:.2f} B\n",
               (whole.cpu_s - stages.supply_cpu_s) / b);
    return whole.exit_code;
}
