#include <cmath>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <limits>
#include <string>

#include <catch2/catch.hpp>
#include <cpl_conv.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include "io/error.h"
#include "io/geopackage/geopackage_finish.h"
#include "io/geopackage_writer.h"
#include "io/records/dataset.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;
using farwater::support::bytes_of;
using farwater::support::TemporaryFolder;

// One of every kind of column; the second row is all NULL.
FeatureTable all_kinds() {
    FeatureTable table;
    table.name = "all_kinds";
    table.title = "All kinds";
    table.description = "One column of each kind.";
    table.columns = {{"word", ColumnType::text, "A word.", 0},
                     {"count", ColumnType::integer, "A count.", 0},
                     {"flow_gpm", ColumnType::real, "A flow in US gallons per minute.", 1},
                     {"tested", ColumnType::yes_no, "", 0}};
    table.rows = 2;
    table.fill = [](std::size_t index, Row& row) {
        if (index == 0) {
            row.values = {std::string_view("Höhe; 'x' \"y\""), std::int64_t{9'000'000'000}, 0.1,
                          true};
        }
    };
    return table;
}

FeatureTable one_shape(ShapeKind kind, const Polyline& shape) {
    FeatureTable table;
    table.name = "shapes";
    table.shape = kind;
    table.rows = 2;
    table.fill = [shape](std::size_t index, Row& row) {
        row.shape = index == 0 ? shape : Polyline{};
    };
    return table;
}

std::string wkt_of_first(const std::filesystem::path& file, const char* layer) {
    const GDALDatasetUniquePtr dataset(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    const OGRFeatureUniquePtr feature(dataset->GetLayerByName(layer)->GetFeature(1));
    return feature->GetGeometryRef() == nullptr ? "NULL" : feature->GetGeometryRef()->exportToWkt();
}

}  // namespace

TEST_CASE("without GDAL's driver for GeoPackages nothing is written, and it is said") {
    prepare_gdal();
    const TemporaryFolder folder;
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    GetGDALDriverManager()->DeregisterDriver(driver);
    CHECK_THROWS_AS(GeoPackageWriter(folder / "a.gpkg", utm_18(), fixed_date), OutputError);
    GetGDALDriverManager()->RegisterDriver(driver);
    CHECK(write_file(folder / "a.gpkg", {points("a", 1)}));
}

TEST_CASE("a table's rows come back as they were given, NULL as NULL") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {all_kinds()}));
    CHECK(rows_of(file, "SELECT fid, word, count, flow_gpm, tested FROM all_kinds", 5) ==
          "1|Höhe; 'x' \"y\"|9000000000|0.1|1\n2||||\n");
    CHECK(rows_of(file,
                  "SELECT typeof(word), typeof(count), typeof(flow_gpm), typeof(tested) FROM "
                  "all_kinds WHERE fid = 2",
                  4) == "null|null|null|null\n");
    CHECK(rows_of(file, "SELECT data_type FROM gpkg_contents") == "attributes\n");
}

TEST_CASE("a value that a row leaves unset is NULL, not the value of the row before") {
    const TemporaryFolder folder;
    FeatureTable table = points("p", 3);
    table.fill = [](std::size_t index, Row& row) {
        if (index == 1) {
            row.values[0] = std::int64_t{7};
            row.shape = {{1.0, 2.0}};
        }
    };
    REQUIRE(write_file(folder / "a.gpkg", {table}));
    CHECK(rows_of(folder / "a.gpkg", "SELECT number, geom IS NULL FROM p", 2) == "|1\n7|0\n|1\n");
}

#ifdef NDEBUG  // in a debug build the writer stops at such a number
TEST_CASE("text that is no UTF-8 becomes it") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    FeatureTable table = all_kinds();
    table.fill = [](std::size_t, Row& row) { row.values[0] = std::string_view("Caf\xE9"); };
    REQUIRE(write_file(file, {table}));
    CHECK(rows_of(file, "SELECT word, hex(word) FROM all_kinds LIMIT 1", 2) == "Café|436166C3A9\n");
}

// Columns of the data that pass through are looked at nowhere else.
TEST_CASE("letters that nobody sees are left out of a GeoPackage, line ends are not") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    FeatureTable table = all_kinds();
    table.fill = [](std::size_t, Row& row) {
        row.values[0] = std::string_view("\u202EMill\u200B\nRoad\x1B");
    };
    REQUIRE(write_file(file, {table}));
    CHECK(rows_of(file, "SELECT word FROM all_kinds LIMIT 1") == "Mill\nRoad\n");
}

TEST_CASE("NaN and infinity become NULL") {
    const TemporaryFolder folder;
    FeatureTable table = all_kinds();
    table.fill = [](std::size_t index, Row& row) {
        row.values[2] = index == 0 ? std::nan("") : std::numeric_limits<double>::infinity();
    };
    REQUIRE(write_file(folder / "a.gpkg", {table}));
    CHECK(rows_of(folder / "a.gpkg", "SELECT typeof(flow_gpm) FROM all_kinds") == "null\nnull\n");
}
#endif

TEST_CASE("titles and descriptions stand where the standard wants them, each title once") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    FeatureTable second = points("second", 1);
    second.title = "All kinds";
    FeatureTable third = points("third", 1);
    third.title.clear();
    REQUIRE(write_file(file, {all_kinds(), second, third}));
    CHECK(rows_of(file, "SELECT table_name, identifier, description FROM gpkg_contents", 3) ==
          "all_kinds|All kinds|One column of each kind.\n"
          "second|All kinds (second)|Where the points are.\n"
          "third|third|Where the points are.\n");
    CHECK(rows_of(file,
                  "SELECT column_name, description, name IS NULL FROM gpkg_data_columns WHERE "
                  "table_name = 'all_kinds'",
                  3) ==
          "word|A word.|1\ncount|A count.|1\n"
          "flow_gpm|A flow in US gallons per minute.|1\n");
}

TEST_CASE("shapes are written in the units of the working CRS, to the millimetre") {
    const TemporaryFolder folder;
    const Polyline square{{0, 0}, {30.48, 0}, {30.48, 30.48}, {0, 30.48}, {0, 0}};
    REQUIRE(write_file(folder / "m.gpkg", {one_shape(ShapeKind::polygon, square)}));
    CHECK(wkt_of_first(folder / "m.gpkg", "shapes") ==
          "POLYGON ((0 0,30.48 0.0,30.48 30.48,0.0 30.48,0 0))");

    // 304800609.601219 m are 10^9 survey feet.
    REQUIRE(write_file(folder / "ft.gpkg",
                       {one_shape(ShapeKind::point, {{304800.609601219, 0.0004}})}, feet_crs()));
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open((folder / "ft.gpkg").c_str(), GDAL_OF_VECTOR));
    OGRLayer& layer = *dataset->GetLayer(0);
    const OGRFeatureUniquePtr feature(layer.GetFeature(1));
    CHECK(feature->GetGeometryRef()->toPoint()->getX() == Approx(1e6).margin(0.002));
    CHECK(feature->GetGeometryRef()->toPoint()->getY() == 0.0);
    CHECK(std::string(layer.GetSpatialRef()->GetAuthorityCode(nullptr)) == "2249");
}

TEST_CASE("a line is a line, an open ring is closed, no points are no shape") {
    const TemporaryFolder folder;
    REQUIRE(write_file(folder / "l.gpkg", {one_shape(ShapeKind::line, {{0, 0}, {1.0004, 2}})}));
    CHECK(wkt_of_first(folder / "l.gpkg", "shapes") == "LINESTRING (0 0,1 2)");
    CHECK(rows_of(folder / "l.gpkg", "SELECT geom IS NULL FROM shapes") == "0\n1\n");
    REQUIRE(
        write_file(folder / "p.gpkg", {one_shape(ShapeKind::polygon, {{0, 0}, {1, 0}, {1, 1}})}));
    CHECK(wkt_of_first(folder / "p.gpkg", "shapes") == "POLYGON ((0 0,1 0,1 1,0 0))");
}

TEST_CASE("the same rows give the same bytes, whatever the time zone and GDAL's settings") {
    const TemporaryFolder folder;
    const std::vector<FeatureTable> tables{all_kinds(), points("few", 100), points("many", 60'000)};
    REQUIRE(write_file(folder / "a.gpkg", tables));
    const char* zone = std::getenv("TZ");
    const std::string before = zone == nullptr ? "" : zone;
    ::setenv("TZ", "Pacific/Auckland", 1);
    CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", "1999-01-01T00:00:00.000Z");
    CPLSetThreadLocalConfigOption("OGR_GPKG_ALLOW_THREADED_RTREE", "YES");
    REQUIRE(write_file(folder / "b.gpkg", tables));
    CHECK(std::string(CPLGetConfigOption("OGR_CURRENT_DATE", "")) == "1999-01-01T00:00:00.000Z");
    CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", nullptr);
    CPLSetThreadLocalConfigOption("OGR_GPKG_ALLOW_THREADED_RTREE", nullptr);
    zone == nullptr ? ::unsetenv("TZ") : ::setenv("TZ", before.c_str(), 1);
    CHECK(bytes_of(folder / "a.gpkg") == bytes_of(folder / "b.gpkg"));
    CHECK(rows_of(folder / "a.gpkg", "SELECT DISTINCT last_change FROM gpkg_contents") ==
          fixed_date + "\n");
}

TEST_CASE("two files in the making at once do not disturb each other") {
    const TemporaryFolder folder;
    REQUIRE(write_file(folder / "a.gpkg", {points("p", 10)}));
    auto first = std::make_unique<GeoPackageWriter>(folder / "b.gpkg", utm_18(), fixed_date);
    GeoPackageWriter second(folder / "c.gpkg", utm_18(), fixed_date);
    REQUIRE(first->write(points("p", 10), Work{}));
    REQUIRE(first->close(Work{}));
    first.reset();
    REQUIRE(second.write(points("p", 10), Work{}));
    REQUIRE(second.close(Work{}));
    CHECK(bytes_of(folder / "a.gpkg") == bytes_of(folder / "b.gpkg"));
    CHECK(bytes_of(folder / "a.gpkg") == bytes_of(folder / "c.gpkg"));
}

TEST_CASE("a closed file is a GeoPackage 1.2 that stands alone") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {points("few", 10), points("many", 50'001), all_kinds()}));
    CHECK(folder.entries() == 1);
    CHECK(rows_of(file, "PRAGMA journal_mode") == "delete\n");
    CHECK(rows_of(file, "PRAGMA user_version") == "10200\n");
    CHECK(rows_of(file, "SELECT count(*) FROM rtree_few_geom") == "10\n");
    CHECK(rows_of(file, "SELECT count(*) FROM rtree_many_geom") == "50001\n");
}

TEST_CASE("an empty layer and an empty table are written") {
    const TemporaryFolder folder;
    FeatureTable table = all_kinds();
    table.rows = 0;
    REQUIRE(write_file(folder / "a.gpkg", {points("none", 0), table}));
    CHECK(rows_of(folder / "a.gpkg", "SELECT count(*) FROM none") == "0\n");
}

TEST_CASE("a stopped writing comes back at once") {
    const TemporaryFolder folder;
    std::stop_source stop;
    std::size_t filled = 0;
    FeatureTable table = points("p", 1'000'000);
    table.fill = [&](std::size_t index, Row&) {
        filled = index;
        if (index == 5000) {
            stop.request_stop();
        }
    };
    CHECK_FALSE(write_file(folder / "a.gpkg", {table}, utm_18(), Work{stop.get_token(), 1, {}}));
    CHECK(filled < 7000);
}

TEST_CASE("progress of a writing ends at its total") {
    const TemporaryFolder folder;
    std::size_t last = 0;
    const Work work{{}, 1, [&](std::string_view stage, std::size_t done, std::size_t total) {
                        if (stage == "p") {
                            CHECK(done >= last);
                            CHECK(total == 3000);
                            last = done;
                        }
                    }};
    REQUIRE(write_file(folder / "a.gpkg", {points("p", 3000)}, utm_18(), work));
    CHECK(last == 3000);
}

TEST_CASE("a GeoPackage into a folder that does not exist is an error with the path") {
    const TemporaryFolder folder;
    CHECK_THROWS_AS(write_file(folder / "none/a.gpkg", {points("p", 1)}), OutputError);
    CHECK_THROWS_WITH(write_file(folder / "none/a.gpkg", {points("p", 1)}),
                      Catch::Contains("none/a.gpkg: cannot be made"));
}

TEST_CASE("a disk that fills up while a GeoPackage is written is an error with the path") {
    const std::size_t rows = GENERATE(200U, 20'000U, 100'000U);
    const TemporaryFolder folder;
    if (::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=128k") != 0) {
        std::cout << "SKIPPED: only root can mount a small disk\n";
        return;
    }
    CHECK_THROWS_AS(write_file(folder / "a.gpkg", {points("p", rows)}), OutputError);
    CHECK_THROWS_WITH(write_file(folder / "b.gpkg", {points("p", rows)}),
                      Catch::Contains("b.gpkg"));
    ::umount(folder.path().c_str());
}

TEST_CASE("a file size limit met at any place is an error, never a file that looks whole") {
    const TemporaryFolder folder;
    const std::vector<FeatureTable> tables{points("few", 500), points("many", 51'000)};
    REQUIRE(write_file(folder / "whole.gpkg", tables));
    const auto size = std::filesystem::file_size(folder / "whole.gpkg");
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    rlimit before{};
    ::getrlimit(RLIMIT_FSIZE, &before);
    for (rlim_t twelfths = 1; twelfths < 12; ++twelfths) {
        const rlimit small{size * twelfths / 12, before.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &small);
        CAPTURE(twelfths);
        const auto file = folder / (std::to_string(twelfths) + ".gpkg");
        CHECK_THROWS_AS(write_file(file, tables), OutputError);
    }
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
}

TEST_CASE("the check after writing finds what is wrong") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {points("p", 100)}));
    WrittenTable written;
    written.name = "p";
    written.has_geometry = true;
    written.rows = 100;
    written.shapes = 100;
    const auto check = [&](const WrittenTable& table) {
        check_geopackage(SqliteFile(file), file, {table});
    };
    CHECK_NOTHROW(check(written));
    SECTION("a missing row") {
        written.rows = 101;
        CHECK_THROWS_WITH(check(written), Catch::Contains("p has 100 instead of 101"));
    }
    SECTION("a missing box") {
        written.shapes = 101;
        CHECK_THROWS_WITH(check(written), Catch::Contains("the spatial index of p has 100"));
    }
    SECTION("a wrong count in the contents") {
        SqliteFile(file).run("UPDATE gpkg_ogr_contents SET feature_count = 7");
        CHECK_THROWS_WITH(check(written), Catch::Contains("row count of p has 7"));
    }
    SECTION("a spoiled index") {
        SqliteFile(file).run("UPDATE rtree_p_geom_rowid SET nodeno = 99 WHERE rowid = 5");
        CHECK_THROWS_WITH(check(written), Catch::Contains("the spatial index of p: "));
    }
    SECTION("a reference that points nowhere") {
        SqliteFile(file).run("UPDATE gpkg_contents SET srs_id = 4711");
        CHECK_THROWS_WITH(check(written), Catch::Contains("points nowhere"));
    }
    SECTION("a spoiled page") {
        const auto page =
            SqliteFile(file).integer("SELECT rootpage FROM sqlite_master WHERE name = 'p'");
        std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
        bytes.seekp((page - 1) * 4096);
        bytes << std::string(100, '\xFF');
        bytes.close();
        CHECK_THROWS_AS(check(written), OutputError);
    }
}
