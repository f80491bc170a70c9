// `init` on the real town: what it drafts against the district file that a person wrote.
#include <cstdlib>

#include <catch2/catch.hpp>

#include "io/district_file.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::open_data;
using farwater::support::bytes_of;
using farwater::support::contains;
using farwater::support::run_program;

namespace {

const std::string init_program = FARWATER_PROGRAM;

// A copy of a data set's folder, to write into.
std::filesystem::path copied(const std::filesystem::path& set,
                             const support::TemporaryFolder& folder) {
    const std::filesystem::path copy = folder / set.filename().string();
    std::filesystem::create_directory(copy);
    for (const auto& entry : std::filesystem::directory_iterator(set)) {
        std::filesystem::create_symlink(entry.path(), copy / entry.path().filename());
    }
    return copy;
}

// Their column for the field, by the mapping or our own name.
std::string column_read(const io::LayerSpec& spec, const std::string& field) {
    const auto mapped = spec.columns.find(field);
    return mapped == spec.columns.end() ? field : mapped->second;
}

}  // namespace

TEST_CASE("the real town's layers are recognised as a person mapped them", "[open-data]") {
    const auto data = folder_of("washington_nh");
    if (!data) {
        return;
    }
    const support::TemporaryFolder folder;
    const std::filesystem::path town = copied(*data / "washington_nh", folder);
    const auto ended = run_program(init_program, {"init", town.string()});
    CAPTURE(ended.out, ended.err);
    REQUIRE(ended.exit_code == 0);
    const io::DistrictFile drafted = io::read_district_file(town / "district.toml");
    const io::DistrictFile by_hand =
        io::read_district_file("tests/open_data/washington_nh/district.toml");
    for (const char* section : {"roads", "parcels", "buildings", "mapped_water"}) {
        CAPTURE(section);
        REQUIRE(drafted.layers.contains(section));
        CHECK(drafted.layers.at(section).path.filename() ==
              by_hand.layers.at(section).path.filename());
    }
    CHECK(column_read(drafted.layers.at("parcels"), "parcel_id") ==
          column_read(by_hand.layers.at("parcels"), "parcel_id"));
    CHECK(column_read(drafted.layers.at("parcels"), "address") ==
          column_read(by_hand.layers.at("parcels"), "address"));
    CHECK(column_read(drafted.layers.at("roads"), "class") ==
          column_read(by_hand.layers.at("roads"), "class"));
    for (const char* source :
         {"boundary.geojson:", "places.geojson:", "rivers.geojson:", "trails.geojson:"}) {
        CHECK(contains(ended.out, source));
    }
    // Feet or metres the data do not say.
    CHECK(contains(bytes_of(town / "district.toml"),
                   "\n# width_ft = \"width\"  # likely, if in ft\n"));
    CHECK(contains(bytes_of(town / "district.toml"), "\n# \"VI\" = \"\"\n"));
    const auto check = run_program(init_program, {"check", (town / "district.toml").string()});
    CHECK(check.exit_code == 3);
    CHECK(contains(check.err, "stations (department.xlsx, layer stations), apparatus"));
}

// The department of the test's own town in place of the blank sheets.
TEST_CASE("with the department's tables beside them the real town's data are drafted whole",
          "[open-data]") {
    const auto data = folder_of("washington_nh");
    if (!data) {
        return;
    }
    const support::TemporaryFolder folder;
    const std::filesystem::path town = copied(*data / "washington_nh", folder);
    for (const char* table : {"stations.csv", "apparatus.csv", "water_sources.csv", "staffing.csv",
                              "dump_site_places.csv"}) {
        std::filesystem::copy(std::filesystem::path("tests/open_data/washington_nh") / table,
                              town / table);
    }
    REQUIRE(run_program(init_program, {"init", town.string(), "--quiet"}).exit_code == 0);
    CHECK_FALSE(std::filesystem::exists(town / "department.xlsx"));
    const auto check = run_program(init_program, {"check", (town / "district.toml").string()});
    CAPTURE(check.out, check.err);
    CHECK(check.exit_code == 5);
    for (const char* line : {"parcels                 2016", "roads                    246",
                             "buildings               1565", "mapped_water             155",
                             "dump_site_places", "staffing"}) {
        CHECK(contains(check.out, line));
    }
}

TEST_CASE("other open data are drafted too, each file as a district file that can be read",
          "[open-data]") {
    for (const char* set : {"shutesbury_ma", "tompkins_ny", "capecod_ma", "swellendam_za",
                            "bayreuth_de", "andorra"}) {
        const auto data = folder_of(set);
        if (!data) {
            return;
        }
        CAPTURE(set);
        const support::TemporaryFolder folder;
        const std::filesystem::path copy = copied(*data / set, folder);
        const auto ended = run_program(init_program, {"init", copy.string()});
        CAPTURE(ended.out, ended.err);
        REQUIRE(ended.exit_code == 0);
        const io::DistrictFile file = io::read_district_file(copy / "district.toml");
        const std::string schema = file.layers.at("roads").schema;
        CHECK(schema == (std::string(set) == "tompkins_ny" ? "" : "osm"));
        CHECK(file.layers.at("stations").file ==
              (std::string(set) == "tompkins_ny" ? "fire_stations.csv" : "department.xlsx"));
    }
}
