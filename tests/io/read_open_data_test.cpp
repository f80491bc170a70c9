// Real data, read from the folder FARWATER_OPEN_DATA.
#include <cstdlib>
#include <iostream>

#include <catch2/catch.hpp>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

TEST_CASE("a real town is read with its invalid parcels and stray buildings", "[open-data]") {
    const char* root = std::getenv("FARWATER_OPEN_DATA");
    if (root == nullptr) {
        std::cout << "SKIPPED: FARWATER_OPEN_DATA is not set\n";
        return;
    }
    const std::string town = std::filesystem::absolute(root).string() + "/washington_nh/";
    ReadScene scene;
    scene.source("parcels", town + "parcels.geojson", "columns = { parcel_id = \"id\" }")
        .source("roads", town + "roads.geojson",
                "columns = { width_ft = \"width\" }\nvalues = { class = { II = \"state\", III = "
                "\"paved\", V = \"paved_lane\", VI = "
                "\"gravel\", 0 = \"drive\" } }")
        .source("buildings", town + "buildings.geojson")
        .source("mapped_water", town + "lakes.geojson")
        .layer("stations", "station_id,WKT\nS1,POINT (-72.097 43.176)\nS2,POINT (-72.097 43.176)\n")
        .section("stations", "crs = \"EPSG:4326\"");
    const ReadResult read = scene.read();
    // The counts of the data's own README.
    CHECK(count_of(read, "roads") == "246 = 246 + 0 + 0");
    CHECK(count_of(read, "parcels") == "2016 = 2008 + 8 + 0");
    CHECK(count_of(read, "buildings") == "1565 = 1530 + 0 + 35");
    CHECK(count_of(read, "mapped_water") == "155 = 155 + 0 + 0");
    CHECK(read.repaired_parcels.size() == 8);
    const auto has_building = [](const Parcel& parcel) { return parcel.buildings > 0; };
    CHECK(std::count_if(read.district.parcels.begin(), read.district.parcels.end(), has_building) ==
          1172);
    CHECK(read.crs.code == "EPSG:32618");
    double water_m2 = 0.0;
    for (const MappedWater& water : read.district.mapped_water) {
        water_m2 += water.area_m2;
    }
    CHECK(water_m2 == Approx(7.51e6).epsilon(0.002));
}
