// Results do not depend on the number of threads, nor on the out folder: byte for byte.
#include <set>

#include <catch2/catch.hpp>

#include "tests/open_data/open_data.h"

using namespace farwater::open_data;
using farwater::support::bytes_of;
namespace fs = std::filesystem;

namespace {

std::set<fs::path> results_in(const fs::path& folder) {
    std::set<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const fs::path file = fs::relative(entry.path(), folder);
        if (entry.is_regular_file() && file != "run.log") {
            files.insert(file);
        }
    }
    return files;
}

void check_same_bytes(const std::string& set) {
    const auto data = folder_of(set);
    if (!data) {
        return;
    }
    const DistrictCopy copy(set, *data);
    for (const char* threads : {"1", "2"}) {
        const DistrictCopy::Ended ended =
            copy.run(threads, std::string("--quiet --threads ") + threads);
        INFO(ended.said);
        REQUIRE(ended.status == 0);
    }
    const std::set<fs::path> files = results_in(copy.out("1"));
    CHECK((files == results_in(copy.out("2"))));
    for (const char* file :
         {"supply.gpkg", "inputs.gpkg", "tables/by_state.csv", "tables/shortfalls.csv"}) {
        CHECK(files.count(file) == 1);
    }
    for (const fs::path& file : files) {
        CAPTURE(file);
        CHECK((bytes_of(copy.out("1") / file) == bytes_of(copy.out("2") / file)));
    }
}

}  // namespace

TEST_CASE("one thread and two write the same bytes for the real town", "[open-data]") {
    check_same_bytes("washington_nh");
}

TEST_CASE("one thread and two write the same bytes for the OpenStreetMap extract", "[open-data]") {
    check_same_bytes("capecod_ma");
}
