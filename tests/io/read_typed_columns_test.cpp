// Columns that are not text: numbers, dates and yes/no of a GeoPackage, and its record numbers.
#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// Two water sources with typed columns; the second one has NULL in all but its id.
void write_sources(const std::filesystem::path& file) {
    prepare_gdal();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference crs;
    crs.importFromEPSG(32618);
    OGRLayer* layer = dataset->CreateLayer("sources", &crs, wkbPoint, nullptr);
    const auto add = [&](const char* name, OGRFieldType type, OGRFieldSubType subtype = OFSTNone) {
        OGRFieldDefn field(name, type);
        field.SetSubType(subtype);
        layer->CreateField(&field);
    };
    add("source_id", OFTInteger64);
    add("kind", OFTString);
    add("rate_gpm", OFTReal);
    add("places", OFTInteger);
    add("tested_on", OFTDate);
    add("frost_proof", OFTInteger, OFSTBoolean);
    add("note", OFTReal);
    for (int row = 0; row < 2; ++row) {
        OGRFeature feature(layer->GetLayerDefn());
        OGRPoint point(700050, 4769990);
        feature.SetGeometry(&point);
        feature.SetField("source_id", row == 0 ? GIntBig{123456789012345678} : GIntBig{42});
        feature.SetField("kind", "hydrant");
        if (row == 0) {
            feature.SetField("rate_gpm", 750.5);
            feature.SetField("places", 2);
            feature.SetField("tested_on", 2025, 6, 1);
            feature.SetField("frost_proof", 1);
            feature.SetField("note", 12345678.25);
        }
        if (layer->CreateFeature(&feature) != OGRERR_NONE) {
            throw std::runtime_error("cannot write the test's package");
        }
    }
}

}  // namespace

TEST_CASE("typed columns are read as what they are, NULL as not known") {
    ReadScene scene;
    write_sources(scene / "water.gpkg");
    scene.source("water_sources", "water.gpkg");
    CHECK(scene.sentences().empty());
    const std::vector<WaterSource> sources = scene.read().district.sources;
    REQUIRE(sources.size() == 2);
    CHECK(sources[0].id == "123456789012345678");
    CHECK(sources[0].rate == gpm(750.5));
    CHECK(sources[0].places == 2);
    CHECK(sources[0].tested_on ==
          Date(std::chrono::year(2025), std::chrono::June, std::chrono::day(1)));
    CHECK(sources[0].frost_proof);
    CHECK(sources[0].note == "12345678.25");
    CHECK(sources[1].id == "42");
    CHECK_FALSE(sources[1].rate);
    CHECK_FALSE(sources[1].places);
    CHECK_FALSE(sources[1].tested_on);
    CHECK_FALSE(sources[1].frost_proof);
    CHECK(sources[1].note.empty());
}

TEST_CASE("the layer's record number can be an id") {
    ReadScene scene;
    write_sources(scene / "water.gpkg");
    scene.source("water_sources", "water.gpkg", "columns = { source_id = \"fid\" }");
    CHECK(scene.read().district.sources.at(1).id == "2");
}

TEST_CASE("a date in a number column is no number, and a number in a date column no date") {
    ReadScene scene;
    write_sources(scene / "water.gpkg");
    scene.source("water_sources", "water.gpkg",
                 "columns = { rate_gpm = \"tested_on\", tested_on = \"places\" }");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water.gpkg), record 123456789012345678, column tested_on: "
                    "holds something that is no plain "
                    "number; the value counts as not known (\"2025-06-01\"); write digits only, "
                    "with a point for decimals.",
                    "water_sources (water.gpkg), record 123456789012345678, column places: holds "
                    "something that is no date; the "
                    "date counts as not known (\"2\"); write dates as 2026-05-31."});
}

TEST_CASE("several layers of one file share its sha256") {
    ReadScene scene;
    write_sources(scene / "water.gpkg");
    scene.source("water_sources", "water.gpkg").source("dump_site_places", "water.gpkg");
    const ReadResult read = scene.read();
    std::vector<std::string> hashes;
    for (const InputRecord& input : read.inputs) {
        if (input.file == "water.gpkg") {
            hashes.push_back(input.sha256);
            CHECK(input.layer == "sources");
        }
    }
    REQUIRE(hashes.size() == 2);
    CHECK(hashes[0] == hashes[1]);
    CHECK(hashes[0].size() == 64);
}
