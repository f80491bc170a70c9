#include "analyzer/app/reading.h"

#include "analyzer/app/problem_list.h"
#include "analyzer/demand/needed_flow.h"
#include "routing/drawn_twice.h"

namespace farwater::app {

Reading read_with_needs(const io::DistrictFile& file, const Work& work) {
    Reading reading{io::read_district(file, work), {}};
    if (work.stopped()) {
        return reading;
    }
    District& district = reading.read.district;
    add(district.problems, routing::settle_drawn_twice(district));
    reading.needs = demand::needs_of(district);
    demand::move_houses(district, reading.needs);
    add(district.problems, demand::need_problems(district, reading.needs));
    return reading;
}

std::vector<std::filesystem::path> files_read(const io::DistrictFile& file) {
    std::vector<std::filesystem::path> files{file.path};
    for (const auto& [section, spec] : file.layers) {
        files.push_back(spec.path);
    }
    for (const io::JoinSpec& join : file.joins) {
        files.push_back(join.table.path);
    }
    if (!file.own_standard.empty()) {
        files.push_back(file.own_standard);
    }
    if (!file.own_terms.empty()) {
        files.push_back(file.own_terms);
    }
    if (file.elevation) {
        files.push_back(file.elevation->path);
    }
    std::erase_if(files, [](const std::filesystem::path& path) { return path.empty(); });
    return files;
}

}  // namespace farwater::app
