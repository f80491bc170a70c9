#include "io/inputs/read_elevation.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

struct Raster {
    int columns = 40;
    int rows = 30;
    double cell = 10.0;  // in the unit of the CRS
    double west = 699900.0, north = 4770200.0;
    std::string crs = "EPSG:32618";  // empty = none
    const char* unit = "m";
    double scale = 1.0;
    double no_data = -9999.0;
};

// Heights rise by one step a cell to the east and ten a cell to the south; the first cell has none.
void write_raster(const std::filesystem::path& file, const Raster& raster) {
    prepare_gdal();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr dataset(
        driver->Create(file.c_str(), raster.columns, raster.rows, 1, GDT_Float32, nullptr));
    std::array<double, 6> place{raster.west, raster.cell, 0, raster.north, 0, -raster.cell};
    dataset->SetGeoTransform(place.data());
    if (!raster.crs.empty()) {
        OGRSpatialReference crs;
        crs.SetFromUserInput(raster.crs.c_str());
        dataset->SetSpatialRef(&crs);
    }
    GDALRasterBand* band = dataset->GetRasterBand(1);
    std::vector<float> heights;
    for (int row = 0; row < raster.rows; ++row) {
        for (int column = 0; column < raster.columns; ++column) {
            heights.push_back(static_cast<float>(column + 10 * row));
        }
    }
    heights.front() = static_cast<float>(raster.no_data);
    band->SetUnitType(raster.unit);
    band->SetNoDataValue(raster.no_data);
    band->SetScale(raster.scale);
    if (band->RasterIO(GF_Write, 0, 0, raster.columns, raster.rows, heights.data(), raster.columns,
                       raster.rows, GDT_Float32, 0, 0, nullptr) != CE_None) {
        throw std::runtime_error("cannot write the test's raster");
    }
}

ReadScene with_raster(const Raster& raster, const std::string& more = "") {
    ReadScene scene;
    write_raster(scene / "dem.tif", raster);
    scene.source("elevation", "dem.tif", more);
    return scene;
}

double height_at(const ReadScene& scene, Point p) {
    const auto height = scene.read().district.elevation.at(p);
    return height ? in_metres(*height) : std::nan("");
}

}  // namespace

TEST_CASE("heights are those of the raster, in metres") {
    const ReadScene scene = with_raster({});
    // Column 15, row 20: the centre of the cell is at 699900 + 155, 4770200 - 205.
    CHECK(height_at(scene, {700055, 4769995}) == Approx(215.0));
    CHECK(height_at(scene, {700060, 4769995}) == Approx(215.5));
    const ReadResult read = scene.read();
    CHECK(read.district.elevation.cell == Approx(10.0));
    CHECK(read.inputs.back().section == "elevation");
    CHECK(read.inputs.back().sha256.size() == 64);
}

TEST_CASE("feet of the band, the district file's unit and the band's scale become metres") {
    CHECK(height_at(with_raster({.unit = "ft"}), {700055, 4769995}) == Approx(215.0 * 0.3048));
    CHECK(height_at(with_raster({.unit = ""}, "elevation_unit = \"ft\""), {700055, 4769995}) ==
          Approx(215.0 * 0.3048));
    CHECK(height_at(with_raster({.unit = "m"}, "elevation_unit = \"ft\""), {700055, 4769995}) ==
          Approx(215.0 * 0.3048));
    CHECK(height_at(with_raster({.unit = "US survey foot"}), {700055, 4769995}) ==
          Approx(215.0 * 1200.0 / 3937.0));
    CHECK(height_at(with_raster({.scale = 0.1}), {700055, 4769995}) == Approx(21.5));
}

TEST_CASE("a cell without a value has no height") {
    const ReadScene scene = with_raster({.west = 700000.0, .north = 4770100.0});
    CHECK(std::isnan(height_at(scene, {700005, 4770095})));
    CHECK(height_at(scene, {700025, 4770095}) == Approx(2.0));
}

TEST_CASE("a raster in degrees is drawn in the working plane") {
    // One tenth of an arc second is about three metres north and two east.
    const Raster degrees{.columns = 300,
                         .rows = 200,
                         .cell = 0.1 / 3600,
                         .west = -72.5450,
                         .north = 43.0590,
                         .crs = "EPSG:4326"};
    const ReadScene scene = with_raster(degrees);
    // EPSG:32618 (700150, 4770050) is (-72.5422120, 43.0567627) as gdaltransform gives it.
    const double column = (-72.5422120 - degrees.west) / degrees.cell - 0.5;
    const double row = (degrees.north - 43.0567627) / degrees.cell - 0.5;
    CHECK(height_at(scene, {700150, 4770050}) == Approx(column + 10.0 * row).margin(3.0));
}

TEST_CASE("only the part at the district is read, coarser where it has too many cells") {
    const ReadResult small =
        with_raster({.columns = 4000, .rows = 3000, .west = 680000.0, .north = 4785000.0}).read();
    CHECK(small.district.elevation.columns <= 36);
    CHECK(small.district.elevation.rows <= 17);
    const ReadScene fine = with_raster(
        {.columns = 5000, .rows = 40, .cell = 0.06, .west = 700000.0, .north = 4770050.0});
    const ReadResult coarse = fine.read();
    CHECK(coarse.district.elevation.columns == 4096);
    CHECK(coarse.district.elevation.cell == Approx(5000 * 0.06 / 4096));
}

TEST_CASE("a raster that cannot be used is refused with the mend") {
    CHECK(with_raster({.unit = ""}).refusal() ==
          "elevation (dem.tif): the band names no unit for its heights; add elevation_unit = "
          "\"ft\" or \"m\" to [elevation].");
    CHECK(with_raster({.unit = "cubits"}).refusal() ==
          "elevation (dem.tif): the band's unit \"cubits\" is not known; add elevation_unit = "
          "\"ft\" or \"m\" to [elevation].");
    CHECK(with_raster({.crs = ""}).refusal() ==
          "elevation (dem.tif): the raster names no coordinate system; add crs = \"EPSG:...\" to "
          "[elevation].");
    CHECK(with_raster({}, "band = 2").refusal() ==
          "elevation (dem.tif): there is no band 2; the raster has 1.");
    CHECK(with_raster({.west = 600000.0}).refusal() ==
          "elevation (dem.tif): the raster lies off the district: it covers x 600000 to 600400, y "
          "4769900 to 4770200 of the "
          "working CRS, the district x 700000 to 700300, y 4769990 to 4770100; correct its crs in "
          "[elevation].");
    ReadScene scene;
    scene.source("elevation", "dem.tif");
    CHECK(scene.refusal() ==
          "elevation (dem.tif): there is no file FOLDER/dem.tif; correct file in the district "
          "file; its folder holds apparatus.csv, parcels.csv, roads.csv, stations.csv.");
    std::filesystem::create_directory(scene / "tiles");
    scene.source("elevation", "tiles");
    CHECK(scene.refusal().find("this is a folder, and one raster is read; make its tiles one by "
                               "`gdalbuildvrt ground.vrt FOLDER/*.tif`") != std::string::npos);
    scene.source("elevation", "dem.tif");
    scene.file("dem.tif", "nothing");
    CHECK(scene.refusal().starts_with("elevation (dem.tif): this is no raster that can be read"));
    std::filesystem::create_symlink("round.tif", scene / "round.tif");
    scene.source("elevation", "round.tif");
    CHECK(
        scene.refusal() ==
        "elevation (round.tif): FOLDER/round.tif cannot be looked at: Too many levels of symbolic "
        "links.");
}

TEST_CASE("what a raster leaves out of the district counts as level, and is told with its extent") {
    // Centres of cells from 699905 to 700155: half of the road, and of the houses A and B.
    const ReadScene scene = with_raster({.columns = 26});
    const ReadResult read = scene.read();
    const ElevationGaps& gaps = read.district.elevation_gaps;
    CHECK(gaps.matter());
    CHECK(gaps.road_share == Approx(145.0 / 300.0).margin(31.0 / 300.0));
    CHECK(gaps.parcels == 1);
    CHECK(read.district.roads.size() == 1);
    const auto told =
        std::ranges::find(read.district.problems, ProblemId::elevation_leaves_out, &Problem::id);
    REQUIRE(told != read.district.problems.end());
    CHECK(told->file == "dem.tif");
    CHECK(told->detail.find("at 1 of 3 parcels") != std::string::npos);
}

TEST_CASE("a raster that covers the district leaves nothing out") {
    const ReadScene scene = with_raster({.columns = 60});
    const ReadResult read = scene.read();
    CHECK_FALSE(read.district.elevation_gaps.matter());
    CHECK(std::ranges::find(read.district.problems, ProblemId::elevation_leaves_out,
                            &Problem::id) == read.district.problems.end());
}
