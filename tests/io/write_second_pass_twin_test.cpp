// Records that SQLite reads go through as those that GDAL reads, byte for byte. A filter that keeps
// every record makes the writer read by GDAL.
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/fingerprint.h"
#include "io/geopackage/sqlite_file.h"
#include "io/geopackage_writer.h"
#include "io/pass_through.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;
using farwater::support::TemporaryFolder;
namespace fs = std::filesystem;

using Shapes = std::vector<const char*>;

const Shapes plain{"POLYGON ((0 0,0 10,10 10,10 0,0 0))",
                   "POLYGON ((0 0,0 9.123456789,9 9,9 0,0 0),(1 1,2 1,2 2,1 2,1 1))",
                   "MULTIPOLYGON (((0 0,0 1,1 1,1 0,0 0)),((5 5,5 6,6 6,6 5,5 5)))"};
const Shapes mixed{"POINT (1 2)",
                   "POINT EMPTY",
                   "LINESTRING (0 0,1 1,-2 5)",
                   "LINESTRING EMPTY",
                   "MULTIPOINT (1 1,2 2)",
                   "MULTILINESTRING ((0 0,1 1),(3 3,4 9))",
                   "MULTIPOLYGON EMPTY",
                   "POLYGON EMPTY",
                   "POLYGON ((0 0,0 -0,1 1,0 0),EMPTY)",
                   "POLYGON ((0 0,0 1,1 1))",
                   "POLYGON Z ((0 0 1,0 1 2,1 1 3,0 0 1))",
                   "LINESTRING M (0 0 1,1 1 2)",
                   "GEOMETRYCOLLECTION (POINT (1 1),LINESTRING (0 0,1 1))",
                   "CURVEPOLYGON (CIRCULARSTRING (0 0,1 1,2 0,1 -1,0 0))",
                   nullptr};

// Columns that need no rewriting, filled at random with NULL, and with what they are not meant for.
void make_input(const fs::path& file, const Shapes& shapes, std::size_t rows, unsigned seed) {
    GDALAllRegister();
    std::minstd_rand random(seed);
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference crs;
    crs.importFromEPSG(32618);
    OGRLayer* layer = dataset->CreateLayer("land \"a\"", &crs, wkbUnknown);
    const std::vector<std::pair<const char*, OGRFieldType>> columns{
        {"name", OFTString},     {"stories", OFTInteger}, {"number", OFTInteger64},
        {"area \"m\"", OFTReal}, {"sold", OFTDate},       {"photo", OFTBinary}};
    for (const auto& [name, type] : columns) {
        OGRFieldDefn column(name, type);
        REQUIRE(layer->CreateField(&column) == OGRERR_NONE);
    }
    for (std::size_t i = 0; i < rows; ++i) {
        OGRFeature feature(layer->GetLayerDefn());
        if (const char* wkt = shapes[random() % shapes.size()]) {
            OGRGeometry* shape = nullptr;
            REQUIRE(OGRGeometryFactory::createFromWkt(wkt, nullptr, &shape) == OGRERR_NONE);
            feature.SetGeometryDirectly(shape);
        }
        REQUIRE(layer->CreateFeature(&feature) == OGRERR_NONE);
    }
}

// GDAL's keep the index, with functions that only GDAL has.
void drop_triggers(SqliteFile& sqlite) {
    std::vector<std::string> names;
    {
        SqliteStatement triggers =
            sqlite.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'");
        while (triggers.step()) {
            names.push_back(triggers.text(0));
        }
    }
    for (const std::string& name : names) {
        sqlite.run("DROP TRIGGER " + sql_name(name));
    }
}

std::string drawn(const std::vector<std::string>& values, std::minstd_rand& random) {
    return values[random() % values.size()];
}

void put_values(const fs::path& file, std::size_t rows, unsigned seed) {
    std::minstd_rand random(seed + 1);
    SqliteFile sqlite(file);
    drop_triggers(sqlite);
    for (std::size_t fid = 1; fid <= rows; ++fid) {
        sqlite.run(
            "UPDATE \"land \"\"a\"\"\" SET name = " +
            drawn({"NULL", "''", "'007 \"x\"'", "x'4142'", "17", "CAST(x'410042' AS TEXT)", "'é'"},
                  random) +
            ", stories = " + drawn({"NULL", "0", "-3", "5000000000", "'two'", "2.5"}, random) +
            ", number = " + drawn({"NULL", "9000000000", "'9'", "1.5"}, random) +
            ", \"area \"\"m\"\"\" = " + drawn({"NULL", "0.1", "9e999", "7", "'wide'"}, random) +
            ", sold = " +
            drawn({"NULL", "'2020-02-29'", "'2020/2/9'", "'2020-02-31'", "'0020-01-01'",
                   "'2020-13-01'", "'soon'", "20200101"},
                  random) +
            ", photo = " + drawn({"NULL", "x'00FF10'", "x''", "'text'"}, random) +
            " WHERE fid = " + std::to_string(fid));
    }
}

// Shapes as other programs may have written them.
void put_shapes(const fs::path& file) {
    SqliteFile sqlite(file);
    drop_triggers(sqlite);
    const std::string begin = "UPDATE \"land \"\"a\"\"\" SET geom = x'";
    const auto put = [&](int fid, const std::string& hex) {
        sqlite.run(begin + hex + "' WHERE fid = " + std::to_string(fid));
    };
    const std::string one = "000000000000F03F";
    const std::string two = "0000000000000040";
    const std::string line = "010200000002000000" + one + two + two + one;
    const std::string srs = "6A7F0000";
    put(1, "47500001" + srs + line);                                        // no box
    put(2, "47500003" + srs + two + one + two + one + line);                // a wrong box
    put(3, "47500005" + srs + one + two + one + two + one + two + line);    // a box with heights
    put(4, "47500003" + srs + one + two + one + two + line + "00");         // a byte too many
    put(5, "47500003" + srs + one + two + one + two + line.substr(0, 60));  // cut short
    put(6,
        "47500002"
        "00007F6A"
        "3FF0000000000000"
        "4000000000000000"
        "3FF0000000000000"
        "4000000000000000"
        "0000000001"
        "3FF0000000000000"
        "4000000000000000");                                             // big endian
    put(7, "47500001" + srs + "0101000000" + "000000000000F87F" + one);  // half a number
    put(8, "4750FF01" + srs + line);                                     // of another version
    put(9, "00");                                                        // nothing of the kind
    put(10, "47500011" + srs + line);                                    // called empty
    put(11, "47500001" + srs + "0102000000FFFFFFFF" + one + two);        // points without end
}

std::string passed_on(const fs::path& in, const fs::path& out, std::size_t records,
                      const std::string& where, const std::vector<RepairedShape>& repaired) {
    PassThroughInput input;
    input.spec.section = "parcels";
    input.spec.file = in.filename().string();
    input.spec.path = in;
    input.spec.where = where;
    input.features = records;
    input.repaired = repaired;
    PassThroughTable table;
    table.results.name = "copy";
    table.keeps = [](std::size_t record) { return record % 7 != 3; };
    GeoPackageWriter writer(out, utm_18(), fixed_date);
    REQUIRE(writer.write(table, input, Work{}));
    REQUIRE(writer.close(Work{}));
    return sha256_of_file(out);
}

const std::vector<RepairedShape> one_repaired{
    {2, {1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xF0, 0x3F, 0, 0, 0, 0, 0, 0, 0, 0x40}}};

}  // namespace

TEST_CASE("records read by SQLite go through as those that GDAL reads") {
    const auto& shapes = *GENERATE(values<const Shapes*>({&plain, &mixed}));
    const std::size_t rows = GENERATE(1U, 40U, 300U);
    const bool odd_values = GENERATE(false, true);
    const unsigned seed = std::random_device()();
    CAPTURE(shapes.size(), rows, odd_values, seed);
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", shapes, rows, seed);
    if (odd_values) {
        put_values(folder / "in.gpkg", rows, seed);
    }
    const bool repair = rows > 2;
    const auto repaired = repair ? one_repaired : std::vector<RepairedShape>{};
    CHECK(passed_on(folder / "in.gpkg", folder / "a.gpkg", rows, "", repaired) ==
          passed_on(folder / "in.gpkg", folder / "b.gpkg", rows, "1 = 1", repaired));
}

TEST_CASE("shapes of other programs read by SQLite go through as those that GDAL reads") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", plain, 20, 1);
    put_shapes(folder / "in.gpkg");
    CHECK(passed_on(folder / "in.gpkg", folder / "a.gpkg", 20, "", {}) ==
          passed_on(folder / "in.gpkg", folder / "b.gpkg", 20, "1 = 1", {}));
}
