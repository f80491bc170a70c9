// Rasters of a folder: which is the ground's height, and what it lacks.
#include <array>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include "io/district_file.h"
#include "io/records/dataset.h"
#include "tests/io/draft_folder.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::contains;

namespace {

struct MadeRaster {
    GDALDataType type = GDT_Float32;
    double west = -72.01;
    double cell = 0.001;  // degrees
    const char* unit = "";
    bool placed = true;
};

void make_raster(const std::filesystem::path& file, const MadeRaster& made) {
    prepare_gdal();
    GDALDriver* tiff = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr raster(tiff->Create(file.c_str(), 80, 40, 1, made.type, nullptr));
    REQUIRE(raster);
    if (made.placed) {
        std::array<double, 6> place{made.west, made.cell, 0, 43.02, 0, -made.cell};
        raster->SetGeoTransform(place.data());
        OGRSpatialReference crs;
        crs.importFromEPSG(4326);
        raster->SetSpatialRef(&crs);
    }
    raster->GetRasterBand(1)->SetUnitType(made.unit);
}

std::string elevation_part(const Draft& draft) {
    const std::size_t at = draft.district_file.find("[elevation]");
    return at == std::string::npos ? "" : draft.district_file.substr(at, 200);
}

}  // namespace

TEST_CASE("the ground's height is told by its name, other rasters and pictures are left out") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    make_raster(folder / "town_dem.tif", {.unit = "metre"});
    make_raster(folder / "dem_hillshade.tif", {.type = GDT_Byte});
    make_raster(folder / "flood.tif", {});
    make_raster(folder / "values.tif", {});
    make_raster(folder / "photo.tif", {.type = GDT_Byte, .placed = false});
    make_raster(folder / "far_dem.tif", {.west = 11.0, .unit = "metre"});
    CHECK(folder.recognised() ==
          std::vector<std::string>{"parcels from parcels.gpkg", "elevation from town_dem.tif"});
    CHECK(folder.passed_over() ==
          std::vector<std::string>{"dem_hillshade.tif: a picture or a map of classes",
                                   "far_dem.tif: elevation, but nowhere near the parcels",
                                   "flood.tif: a raster of something else, by its name",
                                   "photo.tif: a picture without a place on the ground",
                                   "values.tif: a raster that its name does not tell"});
    const Draft draft = folder.draft();
    const DistrictFile file =
        parse_district_file(draft.district_file, draft.folder / "district.toml");
    REQUIRE(file.elevation);
    CHECK(file.elevation->file == "town_dem.tif");
}

TEST_CASE("heights without a unit stand behind # until somebody says it") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    make_raster(folder / "dem.tif", {});
    const Draft draft = folder.draft();
    CHECK(table_of(draft, "elevation").suggested);
    CHECK(contains(draft.district_file, "\n# [elevation]"));
    CHECK(contains(elevation_part(draft), "# elevation_unit = \"ft or m\""));
    CHECK_FALSE(parse_district_file(draft.district_file, draft.folder / "district.toml").elevation);
    // One that says it goes first, however coarse.
    make_raster(folder / "dem_coarse.tif", {.cell = 0.002, .unit = "ft"});
    const DraftTable known = table_of(folder.draft(), "elevation");
    CHECK(known.source == "dem_coarse.tif");
    REQUIRE(known.others.size() == 1);
    CHECK(known.others.front().first == "dem.tif");
}

TEST_CASE(
    "of two rasters of the ground the one that has more of the parcels is taken, then the finer") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    make_raster(folder / "a_dem.tif", {.west = -72.07, .unit = "m"});  // ends amid the parcels
    make_raster(folder / "b_dem.tif", {.unit = "m"});
    CHECK(table_of(folder.draft(), "elevation").source == "b_dem.tif");
    make_raster(folder / "c_dem.tif", {.cell = 0.0009, .unit = "m"});
    CHECK(table_of(folder.draft(), "elevation").source == "c_dem.tif");
}

// Files of the shuttle mission's height format are named by their corner.
TEST_CASE("a .hgt file is the ground's height whatever its name") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.text("N43W072.hgt", std::string(std::size_t{1201} * 1201 * 2, '\0'));
    CHECK(folder.recognised() ==
          std::vector<std::string>{"parcels from parcels.gpkg", "elevation from N43W072.hgt"});
    CHECK(contains(elevation_part(folder.draft()), "file = \"N43W072.hgt\""));
}
