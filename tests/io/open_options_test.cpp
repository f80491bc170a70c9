// Options of the GDAL driver that name a file beside the district file.
#include <catch2/catch.hpp>

#include "io/district_file.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;

namespace {

std::vector<std::string> options_beside(const support::TemporaryFolder& folder,
                                        const std::string& options) {
    const std::string text = "name = \"X\"\n[roads]\nfile = \"r.pbf\"\nopen_options = [" + options +
                             "]\n[parcels]\nfile = \"p.gpkg\"\n[stations]\nfile = "
                             "\"s.gpkg\"\n[apparatus]\nfile = \"a.csv\"\n";
    return io::parse_district_file(text, folder / "district.toml").layers.at("roads").open_options;
}

}  // namespace

TEST_CASE("an option that names a file beside the district file means that file") {
    const support::TemporaryFolder folder;
    support::put(folder / "tags.ini", "x");
    CHECK(options_beside(folder, "\"CONFIG_FILE=tags.ini\"") ==
          std::vector{"CONFIG_FILE=" + (folder / "tags.ini").string()});
}

TEST_CASE("any other option is passed on as it stands") {
    const support::TemporaryFolder folder;
    for (const std::string option :
         {"CONFIG_FILE=other.ini", "X_POSSIBLE_NAMES=lon", "EMPTY=", "NO_VALUE"}) {
        CHECK(options_beside(folder, "\"" + option + "\"") == std::vector{option});
    }
}
