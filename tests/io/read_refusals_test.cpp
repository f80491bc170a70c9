// Inputs that cannot be used as they are: one sentence each, with file, layer and mend.
#include <filesystem>
#include <map>

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// A GeoPackage with layers of these names, each with one point and without a coordinate system.
void write_package(const std::filesystem::path& file, const std::vector<const char*>& layers) {
    prepare_gdal();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    for (const char* name : layers) {
        OGRLayer* layer = dataset->CreateLayer(name, nullptr, wkbPoint, nullptr);
        OGRFeature feature(layer->GetLayerDefn());
        OGRPoint point(700000, 4770000);
        feature.SetGeometry(&point);
        if (layer->CreateFeature(&feature) != OGRERR_NONE) {
            throw std::runtime_error("cannot write the test's package");
        }
    }
}

}  // namespace

TEST_CASE("a file that is not there is named with the place that was looked at") {
    ReadScene scene;
    scene.source("roads", "gis/roads.gpkg");
    CHECK(scene.refusal() ==
          "roads (gis/roads.gpkg): there is no file FOLDER/gis/roads.gpkg; correct file in the "
          "district file.");
}

TEST_CASE("of a file that is not there the near name beside it is told, else what there is") {
    ReadScene scene;
    scene.file("tax_roads.geojson", "{}").file("notes.txt", "x");
    scene.source("roads", "roads.gpkg");
    const std::string told = scene.refusal();
    CHECK(told.ends_with("correct file in the district file; did you mean \"roads.csv\"?."));
    scene.source("roads", "tax_road.gpkg");
    CHECK(scene.refusal().ends_with("did you mean \"tax_roads.geojson\"?."));
    scene.source("roads", "centerlines.gpkg");
    CHECK(
        scene.refusal().ends_with("; its folder holds apparatus.csv, parcels.csv, roads.csv, "
                                  "stations.csv, tax_roads.geojson."));
}

TEST_CASE("houses without ids in the place of parcels are told by their size") {
    const auto told_of = [](double side) {
        ReadScene scene;
        const auto at = [&](double x, double y) {
            return "[" + std::to_string(-72.0 + x * side) + "," + std::to_string(43.0 + y * side) +
                   "]";
        };
        scene.file("p.geojson",
                   "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\","
                   "\"properties\":{\"height\":9},\"geometry\":{\"type\":\"Polygon\","
                   "\"coordinates\":[[" +
                       at(0, 0) + "," + at(1, 0) + "," + at(1, 1) + "," + at(0, 1) + "," +
                       at(0, 0) + "]]}}]}");
        return scene.source("parcels", "p.geojson").refusal();
    };
    CHECK(told_of(0.0001).find("its areas are as small as houses, ") != std::string::npos);
    CHECK(told_of(0.0001).find("buildings are named in [buildings]") != std::string::npos);
    CHECK(told_of(0.001).find("there is no column for parcel_id; name it in [parcels] columns; the "
                              "layer has") != std::string::npos);
}

TEST_CASE("points given as parcels are told where they belong") {
    ReadScene scene;
    scene.layer("parcels", "parcel_id,WKT\nA,POINT (700050 4770050)\n");
    const std::string told = scene.refusal();
    CHECK(told.find("(POINT; parcels are areas: address points beside them go in "
                    "[address_points]; where there are no areas name the points in [targets]") !=
          std::string::npos);
    scene.layer("parcels", "parcel_id,WKT\nA,\"LINESTRING (700000 4770000,700050 4770050)\"\n");
    CHECK(scene.refusal().find("[targets]") == std::string::npos);
}

// What that message says can be done.
TEST_CASE("points of properties are read as targets on an outline without buildings") {
    ReadScene scene;
    scene.layer("parcels",
                "parcel_id,buildings,WKT\nall,0,\"POLYGON ((700000 4770000,700300 4770000,700300 "
                "4770100,700000 4770100,700000 4770000))\"\n");
    scene.layer("targets", "target_id,WKT\n7,POINT (700050 4770050)\n9,POINT (700150 4770050)\n");
    const ReadResult read = scene.read();
    CHECK(read.district.targets.size() == 2);
    CHECK_FALSE(read.district.parcels.at(0).improved);
}

// As in a folder that may not be searched, which root always may.
TEST_CASE("a file of which the system cannot tell is refused in the system's words") {
    ReadScene scene;
    std::filesystem::create_symlink("round.gpkg", scene / "round.gpkg");  // leads to itself
    scene.source("roads", "round.gpkg");
    CHECK(scene.refusal() ==
          "roads (round.gpkg): FOLDER/round.gpkg cannot be looked at: Too many levels of symbolic "
          "links.");
    const std::string long_name(300, 'r');
    scene.source("roads", long_name);
    CHECK(scene.refusal() == "roads (" + long_name + "): FOLDER/" + long_name +
                                 " cannot be looked at: File name too long.");
}

TEST_CASE("a file that is no data source is refused") {
    ReadScene scene;
    scene.file("roads.gpkg", "this is no package").source("roads", "roads.gpkg");
    CHECK(
        scene.refusal().starts_with("roads (roads.gpkg): this is no data source that can be read; "
                                    "name a file or connection that GDAL knows"));
}

TEST_CASE("a file that is empty, UTF-16 or a part of a shapefile is told so") {
    ReadScene scene;
    scene.file("roads.gpkg", "").source("roads", "roads.gpkg");
    CHECK(scene.refusal() == "roads (roads.gpkg): the file is empty.");
    scene
        .file("roads.csv", std::string("\xFF\xFE"
                                       "c\0l\0",
                                       6))
        .source("roads", "roads.csv");
    CHECK(scene.refusal() ==
          "roads (roads.csv): the file is UTF-16 text; save it as CSV in UTF-8.");
    scene.file("ROADS.SHP", "no shapes").source("roads", "ROADS.SHP");
    CHECK(scene.refusal() ==
          "roads (ROADS.SHP): its .shx is not beside it; a shapefile is .shp, .shx, .dbf and .prj "
          "together.");
}

TEST_CASE("a layer that is not there is shown with those that are") {
    ReadScene scene;
    write_package(scene / "gis.gpkg", {"roads_2024", "hydrants"});
    scene.source("roads", "gis.gpkg", "layer = \"roads_2023\"");
    CHECK(scene.refusal() ==
          "roads (gis.gpkg): there is no layer \"roads_2023\"; did you mean \"roads_2024\"?; the "
          "file holds roads_2024, "
          "hydrants.");
}

TEST_CASE("a file with several layers needs the name of one") {
    ReadScene scene;
    write_package(scene / "gis.gpkg", {"roads_2024", "hydrants"});
    scene.source("roads", "gis.gpkg");
    CHECK(scene.refusal() ==
          "roads (gis.gpkg): the file holds several layers: roads_2024, hydrants; name one with "
          "layer = \"...\", on the command line FILE:LAYER.");
}

TEST_CASE(
    "a layer without a coordinate system is refused with the mend, even where GDAL calls it "
    "undefined") {
    ReadScene scene;
    scene.section("roads", "");
    CHECK(scene.refusal() ==
          "roads (roads.csv): the layer names no coordinate system; add crs = \"EPSG:...\" to "
          "[roads].");
    write_package(scene / "gis.gpkg", {"points"});
    scene.section("roads", "crs = \"EPSG:32618\"").source("dump_site_places", "gis.gpkg");
    CHECK(scene.refusal() ==
          "dump_site_places (gis.gpkg): the layer names no coordinate system; add crs = "
          "\"EPSG:...\" to "
          "[dump_site_places].");
}

TEST_CASE("a table without shapes is refused with the mend") {
    ReadScene scene;
    scene.table("stations", "station_id,LON,LAT\nS1,-72.5483,43.0553\n");
    CHECK(scene.refusal() ==
          "stations (stations.csv): the layer has no shapes; name the columns of its coordinates "
          "in [stations] columns, such as x = \"LON\" and y = \"LAT\"; the layer has station_id, "
          "LON, LAT.");
    scene.section("stations", "columns = { x = \"LON\", y = \"LAT\" }");
    CHECK(scene.refusal() ==
          "stations (stations.csv): the layer names no coordinate system; add crs = \"EPSG:...\" "
          "to [stations], \"EPSG:4326\" where it has degrees.");
    scene.section("stations", "crs = \"EPSG:4326\"\ncolumns = { x = \"LON\", y = \"LAT\" }");
    CHECK(scene.read().district.stations.size() == 1);
    scene.table("roads", "class,name\nstate,Mill Road\n");
    CHECK(scene.refusal() ==
          "roads (roads.csv): the layer has no shapes; the layer has class, name.");
}

TEST_CASE("a mapped column that is not there is shown with the nearest one") {
    ReadScene scene;
    scene.section("parcels", "crs = \"EPSG:32618\"\ncolumns = { parcel_id = \"PARCELID\" }");
    CHECK(scene.refusal() ==
          "parcels (parcels.csv): there is no column \"PARCELID\" for parcel_id; did you mean "
          "\"parcel_id\"?; the layer has "
          "parcel_id, WKT.");
}

TEST_CASE("a required field without a column is named") {
    ReadScene scene;
    scene.layer(
        "parcels",
        "lot,WKT\nA,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770000))\"\n");
    CHECK(scene.refusal() ==
          "parcels (parcels.csv): there is no column for parcel_id; name it in [parcels] columns; "
          "the layer has lot, WKT.");
}

TEST_CASE("a key column of a join that is not there is named") {
    ReadScene scene;
    scene.file("assessor.csv", "PID,ZONE\nA,west\n")
        .end("[join]\nfile = \"assessor.csv\"\nkey = \"PIN\"\ncolumns = { zone = \"ZONE\" }\n");
    CHECK(scene.refusal() ==
          "join (assessor.csv): there is no column \"PIN\" for the join; did you mean \"PID\"?; "
          "the layer has PID, ZONE.");
    scene.end(
        "[join]\nfile = \"assessor.csv\"\nkey = \"PID\"\nparcel_key = \"lot\"\ncolumns = { zone = "
        "\"ZONE\" }\n");
    CHECK(scene.refusal() ==
          "parcels (parcels.csv): there is no column \"lot\" for the join; the layer has "
          "parcel_id, WKT.");
}

TEST_CASE("a join that fits no parcel at all is refused") {
    ReadScene scene;
    scene.file("assessor.csv", "PID,ZONE\n0001,west\n0002,east\n")
        .end("[join]\nfile = \"assessor.csv\"\nkey = \"PID\"\ncolumns = { zone = \"ZONE\" }\n");
    CHECK(scene.refusal() ==
          "join (assessor.csv): no parcel has any of its 2 keys; correct key or parcel_key in "
          "[join].");
}

TEST_CASE("an empty layer of a required kind is refused") {
    ReadScene scene;
    scene.layer("roads", "class,WKT\n");
    CHECK(scene.refusal() ==
          "roads (roads.csv): the layer holds no record; the analysis cannot do without.");
}

TEST_CASE("parcels without any shape are refused") {
    ReadScene scene;
    scene.layer("parcels", "parcel_id,WKT\nA,\n");
    CHECK(scene.refusal() == "parcels (parcels.csv): no record has a shape.");
}

// Among a hundred thousand parcels nobody finds it by the extent.
TEST_CASE("a parcel far from all others is named where it makes the extent unfit") {
    const auto square = [](double x, double y) {
        return fmt::format("\"POLYGON (({0:f} {1:f},{2:f} {1:f},{2:f} {3:f},{0:f} {1:f}))\"\n", x,
                           y, x + 100, y + 100);
    };
    std::string rows = "parcel_id,WKT\n";
    for (int i = 0; i < 9; ++i) {
        rows += fmt::format("P{},", i) + square(700000 + 100 * i, 4770000);
    }
    ReadScene scene;
    scene.layer("parcels", rows + "LOST," + square(7e9, 4770000));
    CHECK(scene.refusal().ends_with(
        "are no place in EPSG:32618 (WGS 84 / UTM zone 18N); correct the layer's crs in "
        "[parcels]; record LOST lies far from the others, at x 7e+09 y 4.77005e+06: look at it "
        "first."));
    scene.layer("parcels", rows + "," + square(7e9, 4770000));
    CHECK(scene.refusal().find("; row 10 lies far from the others") != std::string::npos);
    scene.layer("parcels", "parcel_id,WKT\nA," + square(7e9, 4770000));
    CHECK(scene.refusal().ends_with("correct the layer's crs in [parcels]."));
}

TEST_CASE("an option that the driver does not have is refused") {
    ReadScene scene;
    scene.section("roads", "crs = \"EPSG:32618\"\nopen_options = [\"X_POSIBLE_NAMES=LON\"]");
    CHECK(scene.refusal() ==
          "roads (roads.csv): open_options has one that is not known here; GDAL says: driver CSV "
          "does not support open option X_POSIBLE_NAMES.");
}

TEST_CASE("a filter that cannot be understood is refused") {
    ReadScene scene;
    scene.section("roads", "crs = \"EPSG:32618\"\nwhere = \"TOWN = 'X'\"");
    CHECK(scene.refusal().starts_with(
        "roads (roads.csv): where = \"TOWN = 'X'\" cannot be understood; GDAL says: "));
}

TEST_CASE("roads of another place are refused with both extents") {
    ReadScene scene;
    scene.section("roads", "crs = \"EPSG:32619\"");
    const std::string text = scene.refusal();
    CHECK(text.find("the parcels within x 700000 to 700300, y 4770000 to 4770100") !=
          std::string::npos);
    CHECK(
        text.starts_with("roads (roads.csv): 1 of 1 records are of no use; the first: roads "
                         "(roads.csv), row 1: lies far "
                         "outside the district (it lies within x 11"));
    scene.layer("roads", "class,WKT\nstate,\"LINESTRING (710000 4769990,710300 4769990)\"\n");
    CHECK(scene.refusal() ==
          "roads (roads.csv): the layer lies off the district: it covers x 710000 to 710300, y "
          "4769990 to 4769990 of the working "
          "CRS, the parcels cover x 700000 to 700300, y 4770000 to 4770100; correct its crs in "
          "[roads], or name the right "
          "layer.");
}

TEST_CASE("buildings of another place are refused with both extents") {
    ReadScene scene;
    scene.layer("buildings", "building_id,WKT\nb,POINT (710000 4770000)\n");
    CHECK(scene.refusal() ==
          "buildings (buildings.csv): the layer lies off the district: it covers x 710000 to "
          "710000, y 4770000 to 4770000 of the "
          "working CRS, the parcels cover x 700000 to 700300, y 4770000 to 4770100; correct its "
          "crs in [buildings], or name "
          "the right layer.");
}

TEST_CASE("a layer of which more than nine in ten records are of no use is refused") {
    std::string rows = "class,WKT\nstate,\"LINESTRING (700000 4769990,700300 4769990)\"\n";
    for (int i = 0; i < 9; ++i) {
        rows += "state,\n";
    }
    ReadScene scene;
    scene.layer("roads", rows);
    CHECK(count_of(scene.read(), "roads") == "10 = 1 + 0 + 9");
    scene.layer("roads", rows + "state,\n");
    CHECK(scene.refusal() ==
          "roads (roads.csv): 10 of 11 records are of no use; the first: roads (roads.csv), row 2: "
          "has no geometry; draw it, or "
          "delete the record.");
}

TEST_CASE("passwords of a connection are not in its error") {
    ReadScene scene;
    scene.source("roads", "PG:host=127.0.0.1 port=1 dbname=gis password=s3cret");
    const std::string text = scene.refusal();
    CHECK(text.starts_with(
        "roads (PG:host=127.0.0.1 port=1 dbname=gis password=***): this is no data source"));
    CHECK(text.find("s3cret") == std::string::npos);
}

TEST_CASE("a damaged file is refused where reading fails") {
    ReadScene scene;
    scene
        .file(
            "parcels.geojson",
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"parcel_id":"A"},"geometry":)"
            R"({"type":"Polygon","coordinates":[[[-72.5,43.0],[-72.4,43.0],[-72.4,43.1],[-72.5,43.0]]]}},{"type)")
        .source("parcels", "parcels.geojson");
    CHECK(scene.refusal().starts_with("parcels (parcels.geojson): "));
    CHECK(scene.refusal() != "not refused");
}

TEST_CASE("nothing of what GDAL says reaches the terminal") {
    ReadScene scene;
    scene.file("roads.gpkg", "this is no package").source("roads", "roads.gpkg");
    const std::filesystem::path kept = scene / "stderr.txt";
    const int terminal = ::dup(2);
    const int file = ::open(kept.c_str(), O_WRONLY | O_CREAT, 0600);
    ::dup2(file, 2);
    const std::string text = scene.refusal();
    ::dup2(terminal, 2);
    ::close(file);
    ::close(terminal);
    CHECK(text != "not refused");
    CHECK(support::bytes_of(kept).empty());
}

TEST_CASE("inputs are left as they are, with nothing beside them") {
    ReadScene scene;
    write_package(scene / "gis.gpkg", {"points"});
    scene.source("dump_site_places", "gis.gpkg", "crs = \"EPSG:32618\"");
    const auto listing = [&] {
        std::map<std::string, std::string> files;
        for (const auto& entry :
             std::filesystem::directory_iterator((scene / "gis.gpkg").parent_path())) {
            files[entry.path().filename()] = support::bytes_of(entry.path());
        }
        return files;
    };
    const auto before = listing();
    CHECK(scene.read().district.dump_site_places.size() == 1);
    CHECK(listing() == before);
}

TEST_CASE("two columns that can be the same one are refused, with both named") {
    ReadScene scene;
    scene.table("apparatus",
                "unit_id,station_id,kind,tank_gal,tank_gal\nE1,S1,engine,1000,1\nT1,S1,tanker,2000,"
                "1\n");
    CHECK(scene.refusal() ==
          "apparatus (apparatus.csv): 2 columns can be \"tank_gal\": \"tank_gal\", \"tank_gal\"; "
          "give each a name of its own.");
    scene.table("apparatus",
                "unit_id,station_id,kind,Tank gal,Tank (gal)\nE1,S1,engine,1000,1\nT1,S1,tanker,"
                "2000,1\n");
    CHECK(scene.refusal() ==
          "apparatus (apparatus.csv): 2 columns can be \"tank_gal\": \"Tank gal\", \"Tank (gal)\"; "
          "name one in columns as it is written.");
    scene.section("apparatus", "columns = { tank_gal = \"Tank (gal)\" }");
    CHECK(scene.refusal() == "not refused");
}

TEST_CASE("a quote mark that swallows rows is refused, not read over") {
    ReadScene scene;
    scene.table("apparatus",
                "unit_id,station_id,kind,tank_gal,width_ft,note\nE1,S1,engine,1000,,5\" hose\n"
                "T1,S1,tanker,2000,,4\" hose\nT2,S1,tanker,2000,,\n");
    CHECK(scene.refusal() ==
          "apparatus (apparatus.csv): row 1 has a quote mark that is not closed in its cell and "
          "swallows the rows after it; put that cell in quotes, and write a mark within it twice.");
    scene.table("apparatus", "unit_id,station_id,kind,\"tank\n_gal\"\nE1,S1,engine,1000\n");
    CHECK(scene.refusal() ==
          "apparatus (apparatus.csv): a column's name goes over two lines; write each name on one "
          "line.");
}
