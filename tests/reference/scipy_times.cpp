#include "tests/reference/scipy_times.h"

#include <cstdlib>
#include <fstream>
#include <iostream>

#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

namespace farwater::reference {
namespace {

constexpr const char* python = "/usr/bin/python3";
constexpr const char* script = "tests/reference/compare_with_scipy.py";

// Whole numbers between spaces: the counts, then arcs, sources, targets and times.
void write_numbers(const std::string& path, const StreetGraph& graph, const Sample& sample,
                   const Times& times) {
    std::ofstream file(path);
    file << graph.nodes << ' ' << graph.arcs.size() << ' ' << sample.sources.size() << ' '
         << sample.targets.size() << '\n';
    for (const StreetArc& arc : graph.arcs) {
        file << arc.from << ' ' << arc.to << ' ' << arc.cost << '\n';
    }
    for (const std::uint32_t node : sample.sources) {
        file << node << '\n';
    }
    for (const std::uint32_t node : sample.targets) {
        file << node << '\n';
    }
    for (const std::int64_t time : times) {
        file << time << '\n';
    }
}

}  // namespace

bool scipy_installed() {
    const bool there =
        support::run_program(python, {"-c", "import scipy.sparse.csgraph"}).exit_code == 0;
    if (!there) {
        std::cout << "SKIPPED: SciPy is not installed\n";
    }
    return there;
}

Compared compare_with_scipy(const StreetGraph& graph, const Sample& sample, const Times& times) {
    const support::TemporaryFolder folder;
    const std::string path = (folder.path() / "times.txt").string();
    write_numbers(path, graph, sample, times);
    const support::Ended ended = support::run_program(python, {script, path});
    return {ended.exit_code == 0, ended.out + ended.err};
}

}  // namespace farwater::reference
