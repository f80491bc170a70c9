// What GDAL's own validator of GeoPackages (OGC 12-128) says of our files.
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <string>

#include <catch2/catch.hpp>
#include <ogrsf_frmts.h>
#include <sys/wait.h>

#include "io/geopackage/sqlite_file.h"
#include "io/geopackage_writer.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;
using farwater::support::TemporaryFolder;

const std::filesystem::path validator =
    "/usr/lib/python3/dist-packages/osgeo_utils/samples/validate_gpkg.py";

bool installed() {
    if (std::filesystem::exists(validator)) {
        return true;
    }
    std::cout << "SKIPPED: python3-gdal is not installed, GeoPackages are not validated\n";
    return false;
}

// Empty = no fault.
std::string faults_of(const std::filesystem::path& file, const TemporaryFolder& folder) {
    const auto report = folder / "report.txt";
    const std::string command = "/usr/bin/python3 " + validator.string() +
                                " -k --extra --warning-as-error " + file.string() + " > " +
                                report.string() + " 2>&1";
    const int status = std::system(command.c_str());
    return WIFEXITED(status) && WEXITSTATUS(status) == 0
               ? ""
               : "ended badly: " + support::bytes_of(report);
}

FeatureTable of_kind(ShapeKind kind, const std::string& name, std::size_t rows) {
    FeatureTable table;
    table.name = name;
    table.shape = kind;
    table.title = "Layer " + name;
    table.description = "A layer of the test.";
    table.columns = {{"word", ColumnType::text, "A word.", 0},
                     {"count", ColumnType::integer, "A count.", 0},
                     {"flow_gpm", ColumnType::real, "A flow.", 1},
                     {"tested", ColumnType::yes_no, "Was it tested?", 0}};
    table.rows = rows;
    table.fill = [kind](std::size_t index, Row& row) {
        const double x = 500000.0 + 20.0 * static_cast<double>(index);
        row.values = {std::string_view("word"), static_cast<std::int64_t>(index), 0.5, index == 1};
        row.shape = {{x, 4.7e6}};
        if (kind != ShapeKind::point) {
            row.shape.push_back({x + 10, 4.7e6});
        }
        if (kind == ShapeKind::polygon) {
            row.shape.push_back({x + 10, 4.7e6 + 10});
            row.shape.push_back({x, 4.7e6});
        }
        if (index == 2) {
            row.shape.clear();
            row.values.assign(4, Value{});
        }
    };
    return table;
}

void make_parcels(const std::filesystem::path& file) {
    const GDALDatasetUniquePtr dataset(GetGDALDriverManager()->GetDriverByName("GPKG")->Create(
        file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference crs;
    crs.importFromEPSG(2249);
    OGRLayer* layer = dataset->CreateLayer("parcels", &crs, wkbUnknown);
    OGRFieldDefn changed("changed", OFTDateTime);
    OGRFieldDefn words("words", OFTString);
    words.SetSubType(OFSTJSON);
    layer->CreateField(&changed);
    layer->CreateField(&words);
    for (const char* wkt :
         {"POLYGON ((0 0,0 1,1 1,0 0))", "MULTIPOLYGON (((0 0,0 1,1 1,0 0)),((5 5,5 6,6 6,5 5)))",
          "POLYGON Z ((0 0 1,0 1 1,1 1 1,0 0 1))"}) {
        OGRFeature feature(layer->GetLayerDefn());
        OGRGeometry* shape = nullptr;
        OGRGeometryFactory::createFromWkt(wkt, nullptr, &shape);
        feature.SetGeometryDirectly(shape);
        feature.SetField(0, 2026, 1, 1, 12, 30, 15.25F, 0);
        feature.SetField(1, "{\"a\": 1}");
        REQUIRE(layer->CreateFeature(&feature) == OGRERR_NONE);
    }
}

}  // namespace

TEST_CASE("layers of every kind and tables pass GDAL's validator at its strictest") {
    if (!installed()) {
        return;
    }
    const TemporaryFolder folder;
    REQUIRE(write_file(
        folder / "a.gpkg",
        {of_kind(ShapeKind::point, "points", 3), of_kind(ShapeKind::line, "lines", 60'000),
         of_kind(ShapeKind::polygon, "polygons", 60'000), of_kind(ShapeKind::none, "facts", 3)}));
    CHECK(faults_of(folder / "a.gpkg", folder).empty());
}

TEST_CASE("an input of mixed shapes, passed through, passes GDAL's validator") {
    if (!installed()) {
        return;
    }
    const TemporaryFolder folder;
    GDALAllRegister();
    make_parcels(folder / "in.gpkg");
    PassThroughTable table;
    table.results = of_kind(ShapeKind::polygon, "parcel_supply", 3);
    PassThroughInput input;
    input.spec.section = "parcels";
    input.spec.path = folder / "in.gpkg";
    input.spec.file = "in.gpkg";
    input.features = 3;
    GeoPackageWriter writer(folder / "a.gpkg", feet_crs(), fixed_date);
    REQUIRE(writer.write(table, input, Work{}));
    REQUIRE(writer.close(Work{}));
    CHECK(faults_of(folder / "a.gpkg", folder) == "");
}

TEST_CASE("the validator is awake") {
    if (!installed()) {
        return;
    }
    const TemporaryFolder folder;
    REQUIRE(write_file(folder / "a.gpkg", {of_kind(ShapeKind::point, "points", 3)}));
    SqliteFile(folder / "a.gpkg").run("UPDATE gpkg_contents SET last_change = 'yesterday'");
    CHECK_FALSE(faults_of(folder / "a.gpkg", folder).empty());
}
